import type { VNode } from "preact";
import { render } from "preact-render-to-string";
import { expect, test } from "vitest";
import { between, boilingLine, domeOf, isotherm } from "../fluid-charts.fixture.ts";
import { shownIn } from "../shown.ts";
import { PressureEnthalpyChart } from "./pressure-enthalpy.tsx";
import { PressureTemperatureChart } from "./pressure-temperature.tsx";
import { VesselPicture } from "./vessel-picture.tsx";
import type { Withdrawal } from "./withdrawal-props.ts";
import { WithdrawalChart } from "./withdrawal-chart.tsx";

// Golden: our own earlier pictures. They show a change for review and prove nothing.

const gauge = shownIn("bar(g)", 101_325);
const readable = (picture: VNode): string => `${render(picture).replaceAll("><", ">\n<")}\n`;

const pressures = between(Math.log(5.5e6), Math.log(1e5), 14).map(Math.exp);

const loop = [
  { name: "1", T: 283, p: 3e5, h: 4.07e5 },
  { name: "2", T: 333, p: 1.5e6, h: 4.43e5 },
  { name: "3", T: 318, p: 1.5e6, h: 2.64e5 },
  { name: "4", T: 274, p: 3e5, h: 2.64e5 },
];

const pure = (name: string) => ({ name, bubble: boilingLine(name, 253.15, 333.15) });
const zeotrope = { ...pure("R22"), name: "a blend", dew: pure("R12").bubble };

/** An emptying made up for the picture: the lighter part leaves first. */
const emptying = (from: "top" | "bottom"): Withdrawal => ({
  from,
  steps: between(0.4, 0.02, 8).map((mass) => {
    const light = from === "top" ? mass : 0.4;
    const shares = [
      { name: "R290", fraction: light },
      { name: "R600a", fraction: 1 - light },
    ];
    return { mass, p: 3e5 + 1e6 * light, left: shares, out: shares };
  }),
});

const pictures: readonly (readonly [string, VNode])[] = [
  [
    "pressure-enthalpy",
    <PressureEnthalpyChart
      id="ph"
      title="A loop of R134a"
      shown={{ p: shownIn("bar"), h: shownIn("kJ/kg"), T: shownIn("°C") }}
      {...domeOf("R134a", 243.15, 373.15, 20)}
      isotherms={[253.15, 313.15, 393.15].map((T) => isotherm("R134a", T, pressures))}
      states={[{ name: "in the can", T: 298, p: 6.65e5, h: 3e5 }]}
      cycles={[{ name: "Loop", points: loop, corners: loop }]}
      width={358}
    />,
  ],
  [
    "pressure-temperature",
    <PressureTemperatureChart
      id="pt"
      title="The can and two fluids"
      shownT={shownIn("°C")}
      shownP={gauge}
      lines={[pure("R134a"), zeotrope]}
      readings={[{ name: "the can", T: { value: 297, u: 1 }, p: { value: 6e5, u: 1e4 } }]}
      width={358}
    />,
  ],
  [
    "vessel",
    <VesselPicture
      id="v"
      title="A third is liquid"
      p={8e5}
      shownP={gauge}
      liquidVolumeFraction={0.33}
      liquid={{
        share: 0.95,
        composition: [
          { name: "R290", fraction: 0.4 },
          { name: "R600a", fraction: 0.6 },
        ],
      }}
      vapour={{
        share: 0.05,
        composition: [
          { name: "R290", fraction: 0.62 },
          { name: "R600a", fraction: 0.38 },
        ],
      }}
      limit={{ fraction: 0.8, name: "80 % full" }}
      width={358}
    />,
  ],
  [
    "withdrawal",
    <WithdrawalChart
      id="w"
      title="Charge it as liquid"
      shownP={gauge}
      shownMass={shownIn("g")}
      ways={[emptying("top"), emptying("bottom")]}
      width={358}
    />,
  ],
];

test.each(pictures)("golden picture: %s", async (name, picture) => {
  const text = readable(picture);
  expect(text.length).toBeLessThan(20_000);
  expect(text).not.toMatch(/NaN|Infinity|style=/);
  await expect(text).toMatchFileSnapshot(`golden/${name}.svg.txt`);
});
