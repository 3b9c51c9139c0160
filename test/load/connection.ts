import { once } from "node:events";
import { connect } from "node:net";

/** What came back, and when it was whole: ms, by the clock of `performance.now`. */
export interface Answer {
  readonly status: number;
  readonly text: string;
  readonly at: number;
}

/**
 * One HTTP connection that stays open, a request at a time. A plain socket rather than Node's own client: the devices of
 * a measurement share the processor with what they measure.
 */
export async function openConnection(port: number) {
  const socket = connect({ port, host: "127.0.0.1", noDelay: true }).setEncoding("utf8");
  await once(socket, "connect");
  let got = "";
  let settle: { resolve: (answer: Answer) => void; reject: (error: Error) => void } | undefined;
  socket.on("data", (part: string) => {
    got += part;
    const answer = wholeAnswer(got);
    if (answer === undefined) return;
    got = "";
    settle?.resolve({ ...answer, at: performance.now() });
    settle = undefined;
  });
  socket.on("error", (error) => settle?.reject(error));
  socket.on("close", () => settle?.reject(new Error("the server closed the connection")));
  return {
    ask: (method: string, path: string, headers: string, body: string) =>
      new Promise<Answer>((resolve, reject) => {
        settle = { resolve, reject };
        const length = Buffer.byteLength(body);
        socket.write(
          `${method} ${path} HTTP/1.1\r\nhost: 127.0.0.1\r\n${headers}content-length: ${length}\r\n\r\n${body}`,
        );
      }),
    close: () => {
      socket.removeAllListeners("close").destroy();
    },
  };
}

/** Status and body, once all of it is there. ASCII answers only: length is counted in characters. */
function wholeAnswer(got: string): Omit<Answer, "at"> | undefined {
  const end = got.indexOf("\r\n\r\n");
  if (end < 0) return undefined;
  const head = got.slice(0, end);
  const text = got.slice(end + 4);
  const length = /^content-length: *(\d+)/im.exec(head)?.[1];
  const whole = length === undefined ? text.endsWith("0\r\n\r\n") : text.length >= Number(length);
  return whole ? { status: Number(head.slice(9, 12)), text } : undefined;
}
