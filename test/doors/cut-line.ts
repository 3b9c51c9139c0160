import { once } from "node:events";
import { connect, createServer, type Socket } from "node:net";

/** A way to a server on this machine that can be cut at the worst moment. */
export async function cutLine(port: number) {
  const open = new Set<Socket>();
  let armed = false;
  let held: string | undefined;
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
    near.on("data", (part) => {
      // From here on this connection says nothing more, as one of a process that stands still.
      if (held !== undefined && part.includes(held)) near.pause();
      else far.write(part);
    });
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
    /** From now on, a connection that is to carry such a text stands still. */
    hold: (text: string | undefined) => {
      held = text;
    },
    end: () => {
      for (const one of open) one.destroy();
      proxy.close();
    },
  };
}
