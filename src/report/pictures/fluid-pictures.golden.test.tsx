import type { VNode } from "preact";
import { render } from "preact-render-to-string";
import { expect, test } from "vitest";
import { between, boilingLine, domeOf, isotherm } from "../fluid-charts.fixture.ts";
import { shownIn } from "../shown.ts";
import { PressureEnthalpyChart } from "./pressure-enthalpy.tsx";
import { PressureTemperatureChart } from "./pressure-temperature.tsx";
import { ChargeBars } from "./charge-bars.tsx";
import { LeakChart } from "./leak-chart.tsx";
import { SweepChart } from "./sweep-chart.tsx";
import { VesselPicture } from "./vessel-picture.tsx";
import type { SweepPoint } from "./sweep-props.ts";
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

/** Readings made up for the picture: above 310 K there is no answer. */
const day = (reading: (T: number) => Omit<SweepPoint, "x">): SweepPoint[] =>
  between(288, 318, 7).map((T) => (T > 310 ? { x: T } : { x: T, ...reading(T) }));

/** A leak made up for the picture. */
const fading = (peak: number, tau: number) =>
  between(0, 3600, 13).map((t) => ({ t, concentration: peak * Math.exp(-t / tau) }));

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
  [
    "sweep",
    <SweepChart
      id="sw"
      title="The head climbs with the day"
      over={{ name: "Outside temperature", shown: shownIn("°C") }}
      lines={[
        {
          name: "Low side",
          shown: gauge,
          areaName: "swing while cycling",
          points: day((T) => ({
            y: 3e5,
            ...(T < 300 && { area: { from: 2.6e5, to: 4.1e5 }, swings: true }),
          })),
        },
        { name: "High side", shown: gauge, points: day((T) => ({ y: 1e6 + 4e4 * (T - 288) })) },
      ]}
      gaps={[{ from: 313, to: 318, why: "The high-pressure switch would open." }]}
      here={303}
      width={358}
    />,
  ],
  [
    "leak",
    <LeakChart
      id="lk"
      title="A third of it would burn"
      shown={shownIn("g/m3")}
      lines={[
        { name: "layer", points: fading(0.4, 6000) },
        { name: "stirred", points: fading(0.1, 900) },
      ]}
      lfl={0.038}
      log
      width={358}
    />,
  ],
  [
    "charge-bars",
    <ChargeBars
      id="cb"
      title="Most of it lies in the condenser"
      shown={shownIn("g")}
      parts={[
        { name: "Condenser", mass: 0.32 },
        { name: "Liquid line", mass: 0.11 },
        { name: "Evaporator", mass: 0.05 },
      ]}
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
