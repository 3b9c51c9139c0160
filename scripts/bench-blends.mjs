// Prints microseconds per call of the mixture model beside those of a native library.
//
// Called by bench.mjs with the bundled rooms. R290/R600a over a range of compositions, 250 to 330 K. The
// native figures were measured with the same library and machine as those of the pure fluids.

/** Microseconds of the native library, and how many times faster this engine is meant to be. */
const native = {
  "bubble point from T": [183, 5],
  "dew point from T": [176, 5],
  "bubble point from p": [178, 5],
  "T, p two-phase": [911, 20],
  "T, p one phase": [2735, 50],
  "p, h two-phase": [33850, 200],
  "p, h vapour": [24100],
  "p, h liquid": [19400],
  "p, s vapour": [20100],
  // Not in the native table.
  "T, v two-phase": [],
};

export function benchBlends(fluids, createRandom, time) {
  const results = measure(fluids, createRandom, time);
  const width = Math.max(...Object.keys(native).map((label) => label.length)) + 2;
  console.log(
    "\nR290/R600a, microseconds per call; in brackets the native figure, the ratio and its target.",
  );
  for (const [label, [there, target]] of Object.entries(native)) {
    const here = results[label];
    const wanted = target === undefined ? "" : `, wanted x${target}`;
    const beside = there === undefined ? "" : ` (${there}, x${(there / here).toFixed(1)}${wanted})`;
    console.log(label.padEnd(width) + here.toFixed(2) + beside);
  }
}

function measure(fluids, createRandom, time) {
  const random = createRandom(30);
  const between = (from, to) => from + (to - from) * random();
  const mix = fluids.mixture(["R290", "R600a"]);
  const state = (outcome) => {
    if (outcome.kind !== "state") throw new Error(JSON.stringify(outcome));
    return outcome;
  };
  const cases = Array.from({ length: 64 }, () => {
    const x = between(0.1, 0.9);
    const z = [x, 1 - x];
    const T = between(250, 330);
    const [bubble, dew] = [state(fluids.bubbleAtT(mix, z, T)), state(fluids.dewAtT(mix, z, T))];
    const wet = state(fluids.mixStateTP(mix, z, T, dew.p + between(0.1, 0.9) * (bubble.p - dew.p)));
    const vapour = state(fluids.mixStateTP(mix, z, T, dew.p * between(0.2, 0.95)));
    const liquid = state(fluids.mixStateTP(mix, z, T, bubble.p * between(1.05, 3)));
    const single = random() < 0.5 ? vapour : liquid;
    return { z, T, bubble, wet, vapour, liquid, single };
  });
  return {
    "bubble point from T": time(cases, ({ z, T }) => fluids.bubbleAtT(mix, z, T).p),
    "dew point from T": time(cases, ({ z, T }) => fluids.dewAtT(mix, z, T).p),
    "bubble point from p": time(cases, ({ z, bubble }) => fluids.bubbleAtP(mix, z, bubble.p).T),
    "T, p two-phase": time(cases, ({ z, T, wet }) => fluids.mixStateTP(mix, z, T, wet.p).rho),
    "T, p one phase": time(cases, ({ z, T, single }) => fluids.mixStateTP(mix, z, T, single.p).rho),
    "p, h two-phase": time(cases, ({ z, wet }) => fluids.mixStatePH(mix, z, wet.p, wet.h).T),
    "p, h vapour": time(cases, ({ z, vapour }) => fluids.mixStatePH(mix, z, vapour.p, vapour.h).T),
    "p, h liquid": time(cases, ({ z, liquid }) => fluids.mixStatePH(mix, z, liquid.p, liquid.h).T),
    "p, s vapour": time(cases, ({ z, vapour }) => fluids.mixStatePS(mix, z, vapour.p, vapour.s).T),
    "T, v two-phase": time(cases, ({ z, T, wet }) => fluids.mixStateTRho(mix, z, T, wet.rho).p),
  };
}
