/** Bytes in one line; a longer one gets an error of its own and is never held in memory. */
export const longestLine = 2 ** 20;

export type Line = { readonly kind: "line"; readonly text: string } | { readonly kind: "too-long" };

const newline = 0x0a;

/**
 * Cuts a stream of bytes into lines, each as soon as it is whole. The last one needs no newline.
 * Memory stays below one chunk and one line, whatever comes.
 */
export async function* linesOf(stream: AsyncIterable<Uint8Array>): AsyncGenerator<Line> {
  let parts: Uint8Array[] = [];
  let length = 0;
  const add = (part: Uint8Array) => {
    length += part.length;
    if (length <= longestLine) parts.push(part);
    else parts = [];
  };
  const take = (): Line => {
    const line: Line =
      length > longestLine ? { kind: "too-long" } : { kind: "line", text: textOf(parts) };
    parts = [];
    length = 0;
    return line;
  };
  for await (const chunk of stream) {
    let start = 0;
    for (let end = chunk.indexOf(newline); end >= 0; end = chunk.indexOf(newline, start)) {
      add(chunk.subarray(start, end));
      yield take();
      start = end + 1;
    }
    if (start < chunk.length) add(chunk.subarray(start));
  }
  if (length > 0) yield take();
}

/** UTF-8; what is none becomes a replacement character, and a byte order mark is dropped. */
function textOf(parts: readonly Uint8Array[]): string {
  return new TextDecoder().decode(Buffer.concat(parts));
}
