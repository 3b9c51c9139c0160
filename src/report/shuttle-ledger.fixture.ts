import type { Account, Ledger, Measured, Posting } from "../trial/index.ts";
import { at, ids, m, uuid } from "./shuttle-basics.fixture.ts";

/** The ledger of the invented trial for the tests of pictures and report: made by hand, nothing in it was measured. */

const r134a = (mass: Measured) => ({ substance: "fluid:R134a", name: "R134a", mass });
const productB = (mass: Measured) => ({
  substance: `product:${ids.product}`,
  name: "Product B",
  mass,
});

const account = (
  id: string,
  name: string,
  kind: Account["kind"],
  basis: Account["basis"],
  initial: Measured,
  contents: Account["contents"],
  mass = m(
    contents.reduce((sum, one) => sum + one.mass.value, 0),
    Math.hypot(...contents.map((one) => one.mass.u)),
  ),
): Account => ({
  id,
  name,
  kind,
  basis,
  initial,
  mass,
  contents,
  history: [],
  heldSinceEmpty: contents.map(({ substance }) => substance),
});

const accounts: readonly Account[] = [
  account("vehicle", "Nine-seat shuttle", "vehicle", "weighed", m(0.62, 0.02), [
    r134a(m(0.623, 0.004)),
  ]),
  account(ids.cylinder, "Cylinder R1", "vessel", "weighed", m(2.14, 0.004), [
    r134a(m(2.105, 0.006)),
  ]),
  account(ids.spare, "Cylinder X7, flammable-rated", "vessel", "weighed", m(0, 0), [
    productB(m(0.208, 0.004)),
  ]),
  account(
    ids.can,
    "Can of product B, first",
    "vessel",
    "weighed",
    m(0.214, 0.004),
    [],
    m(0, 0.004),
  ),
  account(
    ids.secondCan,
    "Can of product B, second, kept sealed",
    "vessel",
    "declared",
    m(0.213, 0.004),
    [productB(m(0.213, 0.004))],
  ),
  account("lost", "Lost", "lost", "none", m(0, 0), [productB(m(0.003, 0.001))]),
  account("unaccounted", "Unaccounted", "unaccounted", "none", m(0, 0), [
    productB(m(0.003, 0.006)),
    r134a(m(0.032, 0.02)),
  ]),
];

const posting = (
  n: number,
  when: string,
  from: string,
  to: string,
  mass: Measured,
  substance: "a" | "b",
  leg: Posting["leg"] = "moved",
): Posting => ({
  entry: uuid(n),
  when,
  from,
  to,
  mass,
  parts: [substance === "a" ? r134a(mass) : productB(mass)],
  leg,
  evidence: leg === "moved" ? "source" : leg === "purged" ? "stated" : "inspection",
  phase: "liquid",
  scaleAssumed: false,
});

const postings: readonly Posting[] = [
  posting(40, at(120), "vehicle", ids.cylinder, m(0.588, 0.004), "a"),
  posting(41, at(125), "vehicle", "unaccounted", m(0.032, 0.02), "a", "found-empty"),
  posting(42, at(60, 15), ids.can, "vehicle", m(0.211, 0.004), "b"),
  posting(42, at(60, 15), ids.can, "lost", m(0.003, 0.001), "b", "purged"),
  posting(43, at(200, 15), "vehicle", ids.spare, m(0.208, 0.004), "b"),
  posting(44, at(205, 15), "vehicle", "unaccounted", m(0.003, 0.006), "b", "found-empty"),
  posting(45, at(300, 15), ids.cylinder, "vehicle", m(0.623, 0.004), "a"),
];

const stepMasses: readonly (readonly [number, readonly number[]])[] = [
  [40, [0.032, 2.728, 0, 0.214, 0.213, 0, 0]],
  [41, [0, 2.728, 0, 0.214, 0.213, 0, 0.032]],
  [42, [0.211, 2.728, 0, 0, 0.213, 0.003, 0.032]],
  [43, [0.003, 2.728, 0.208, 0, 0.213, 0.003, 0.032]],
  [44, [0, 2.728, 0.208, 0, 0.213, 0.003, 0.035]],
  [45, [0.623, 2.105, 0.208, 0, 0.213, 0.003, 0.035]],
];

export const ledger: Ledger = {
  accounts,
  postings,
  closures: [
    {
      entry: uuid(41),
      when: at(125),
      account: "vehicle",
      kind: "found-empty",
      residual: 0.032,
      u: 0.02,
      z: 1.6,
      grade: "closes",
      declared: true,
      sentence: "The vehicle was found empty; the label's charge left 32 g over.",
    },
    {
      entry: uuid(44),
      when: at(205, 15),
      account: "vehicle",
      kind: "found-empty",
      residual: 0.003,
      u: 0.006,
      z: 0.5,
      grade: "closes",
      declared: false,
      sentence: "The vehicle was found empty; 3 g of product B are left over.",
    },
    {
      entry: uuid(46),
      when: at(310, 15),
      account: ids.cylinder,
      kind: "gross-mass",
      residual: -0.021,
      u: 0.006,
      z: -3.5,
      grade: "does-not-close",
      declared: false,
      sentence: "Cylinder R1 weighs 21 g more than its transfers explain.",
    },
  ],
  steps: stepMasses.map(([n, masses]) => ({
    entry: uuid(n),
    when: postings.find(({ entry }) => entry === uuid(n))?.when ?? at(0),
    masses: new Map(accounts.map(({ id }, i) => [id, masses[i] ?? 0])),
  })),
  largest: 2.728,
  conservation: { initial: 3.187, now: 3.187, holds: true },
};
