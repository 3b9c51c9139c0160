import { expect, test } from "vitest";
import { VesselPicture } from "../pictures/vessel-picture.tsx";
import { shownIn } from "../shown.ts";
import { lightStyle } from "./light-style.ts";
import { pictureFile, pictureFormats } from "./picture-file.ts";

const picture = {
  title:
    'A vessel of "A & B" < half full, said at such length that the sheet must break it into lines',
  note: "Coldproof.",
  draw: (width: number, height: number) => (
    <VesselPicture
      id="v"
      title="A vessel"
      p={8e5}
      shownP={shownIn("bar(g)", 101_325)}
      liquidVolumeFraction={0.4}
      liquid={{ share: 0.9, composition: [{ name: "R290", fraction: 1 }] }}
      vapour={{ share: 0.1, composition: [{ name: "R290", fraction: 1 }] }}
      width={width}
      height={height}
    />
  ),
};

test.each(["wide", "square"] as const)("a %s sheet stands alone", (shape) => {
  const { width, height } = pictureFormats[shape];
  const file = pictureFile(picture, pictureFormats[shape]);
  expect(file).toMatch(new RegExp(`^<svg [^>]*width="${width}" height="${height}"`));
  // No token, condition, script or address that another program could not follow.
  expect(file).not.toMatch(/var\(|@media|<script|style="/);
  expect(file.replace('xmlns="http://www.w3.org/2000/svg"', "")).not.toMatch(/https?:/);
  expect(file).toContain("&amp; B");
  // One element each: a drawing nested in a drawing would lose its place in some editors.
  expect(file.match(/<svg/g)).toHaveLength(1);
});

test("a text of the title is cut between words, never within one", () => {
  const file = pictureFile(picture, pictureFormats.square);
  const lines = [...file.matchAll(/<text class="pic-name" x="28"[^>]*>([^<]*)</g)].map(
    ([, line]) => line,
  );
  expect(lines.length).toBeGreaterThan(1);
  const plain = lines.join(" ").replaceAll("&quot;", '"').replace("&lt;", "<");
  expect(plain.replace("&amp;", "&")).toBe(picture.title);
});

test("every colour of the light style is a colour", () => {
  const colours = [...lightStyle().matchAll(/(?:fill|stroke|color):\s*([^;}]+)/g)];
  expect(colours.length).toBeGreaterThan(30);
  for (const [, colour] of colours) {
    expect(colour?.trim()).toMatch(/^(#[\da-f]{3,6}|none|currentColor)$/i);
  }
});
