/** A stream that a person or another program reads, at its own pace. */
export interface Output {
  /** Writes and waits while the reader is behind. False when the reader has gone: stop quietly. */
  write(text: string): Promise<boolean>;
}

/** Wraps a stream; a reader that goes away (`| head`) is no error of ours. */
export function outputOn(stream: NodeJS.WritableStream): Output {
  const reader = { gone: false };
  let goOn = () => {};
  const leave = () => {
    reader.gone = true;
    goOn();
  };
  stream.on("error", leave);
  stream.on("close", leave);
  stream.on("drain", () => {
    goOn();
  });
  return {
    write: async (text) => {
      if (reader.gone) return false;
      if (!stream.write(text)) {
        await new Promise<void>((resume) => {
          goOn = resume;
        });
      }
      return !reader.gone;
    },
  };
}
