import { once } from "node:events";
import { connect, createServer, type Socket } from "node:net";

/** A way to a server on this machine that can be cut at the worst moment. */
export async function cutLine(port: number) {
  const open = new Set<Socket>();
  let armed = false;
  const proxy = createServer((near) => {
    const far = connect(port, "127.0.0.1");
    const both = [near, far];
    const end = () => {
      for (const one of both) open.delete(one.destroy());
    };
    for (const one of both) {
      open.add(one);
      one.on("error", end).on("close", end);
    }
    near.on("data", (part) => far.write(part));
    far.on("data", (part) => {
      // The server has done what was asked; nobody hears of it.
      if (armed && part.includes("SELECT")) end();
      else near.write(part);
    });
  }).listen(0, "127.0.0.1");
  await once(proxy, "listening");
  const address = proxy.address();
  if (address === null || typeof address === "string") throw new Error("no port");
  return {
    port: address.port,
    /** From now on, the answer to a statement that gives rows is lost with its connection. */
    arm: (on: boolean) => {
      armed = on;
    },
    end: () => {
      for (const one of open) one.destroy();
      proxy.close();
    },
  };
}
