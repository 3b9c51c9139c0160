import { expect, test } from "vitest";
import { newsIn } from "./live.ts";

test("news are heard whole, however the stream is cut", () => {
  const text = ": here\n\nevent: appended\ndata: {}\n\nevent: other\ndata: appended\n\n";
  for (let cut = 0; cut <= text.length; cut++) {
    const read = newsIn();
    const heard = [read(text.slice(0, cut)), read(text.slice(cut))];
    expect(heard.filter(Boolean)).toHaveLength(1);
  }
  expect(newsIn()("event: appended\r\ndata: {}\r\n\r\n")).toBe(true);
  expect(newsIn()("event: ended\ndata: event: appended\n\n")).toBe(false);
});
