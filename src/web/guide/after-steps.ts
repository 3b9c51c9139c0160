import type { TrialView } from "../../trial/index.ts";
import { type GuideStep, holdsAt, looked, met, readingsAt, runsAt } from "./step.ts";

/** A run read by eye has its figures as readings, not from a file. */
const roadByHand = ({ runs }: TrialView): boolean =>
  runs.some((run) => run.stage === "run" && run.trace === undefined && run.values.length >= 5);

const tested = ({ entries }: TrialView): boolean =>
  entries.some(({ type, withdrawn }) => type === "sample-tested" && !withdrawn);

const chargeSteps: readonly GuideStep[] = [
  {
    id: "charge-oil",
    stage: "charge",
    title: "Put the oil back",
    why: "As much new oil as came out, of the kind on the label. Too little kills the compressor.",
    learned: "The oil is even.",
    at: ["reading", "oil-returned"],
    done: met("charge", "oil"),
  },
  {
    id: "charge-can",
    stage: "charge",
    title: "Charge from the can on the scale",
    why: "Weigh the can before and after: the scale tells what went in, not the label. About 2 g were lost from the hose, and they are written down. On a flammable product: no flame or spark, air moving, nobody in the cabin.",
    learned: "126 g left the can. Its label says 6 oz net, which is 170 g.",
    at: ["transfer"],
    done: met("charge", "charged"),
  },
  {
    id: "charge-empty",
    stage: "charge",
    title: "Measure the emptied can",
    why: "Fill the empty can with water to learn its volume: the vapour that stays in a can is mass too. Then record that nothing flows any more.",
    learned: "The can's account does not close: it never held what its label says.",
    at: ["reading", "can-volume"],
    done: readingsAt("charge", "can-volume"),
  },
];

const runSteps: readonly GuideStep[] = [
  {
    id: "run-morning",
    stage: "run",
    title: "Bring in the morning's run on Kestrel",
    why: "The same van, fan, doors and speed as in Prove. The air is never the same: so it is measured as well.",
    learned: "Two runs on Kestrel, parked and on the road.",
    at: ["import", "run"],
    done: runsAt("run", 2),
  },
  {
    id: "run-afternoon",
    stage: "run",
    title: "Bring in the afternoon, parked",
    why: "A second run in the same condition shows how far two runs of one product lie apart.",
    learned: "Parked, there are two runs now.",
    at: ["import", "run"],
    done: runsAt("run", 3),
  },
  {
    id: "run-road",
    stage: "run",
    title: "Enter the road run by hand",
    why: "The logger was left behind, so a passenger read the displays, on a phone without a connection. Record the run first, then its readings. Everything here works offline.",
    learned: "A run by hand counts like the others, with the wider uncertainty of the eye.",
    at: ["run"],
    done: roadByHand,
  },
  {
    id: "run-rest",
    stage: "run",
    title: "Read the cold van in the evening",
    why: "The pressures at rest with Kestrel inside say something about what Kestrel is.",
    learned: "They stand beside those of Prove.",
    at: ["reading", "metal-temperature"],
    done: readingsAt("run", "static-low"),
  },
];

const identifySteps: readonly GuideStep[] = [
  {
    id: "identify-cold",
    stage: "identify",
    title: "Read the sealed can in the morning",
    why: "The second can was kept sealed. Its pressure, with the temperature of its liquid, narrows down what is inside. Weigh it too.",
    learned: "One pressure fits several refrigerants: it cannot decide alone.",
    at: ["reading", "vessel-temperature"],
    done: met("identify", "contents"),
  },
  {
    id: "identify-warm",
    stage: "identify",
    title: "Read the same can at noon",
    why: "Two temperatures tell more than one: fluids differ in how fast the pressure climbs. Warm a can only with water that a hand can bear, 40 °C at most.",
    learned: "The climb between morning and noon separates what one reading could not.",
    at: ["reading", "vessel-temperature"],
    done: readingsAt("identify", "vessel-pressure", 2),
  },
  {
    id: "identify-detector",
    stage: "identify",
    title: "Write down what the gas detector said",
    why: "An electronic detector for combustible gas was held near the valve, and it responded. It is never tested with a flame.",
    learned:
      "It burns, and a test says so, not only the mark on the can. Identify weighs it with the rest.",
    at: ["test"],
    done: tested,
  },
];

const restoreSteps: readonly GuideStep[] = [
  {
    id: "restore-recover",
    stage: "restore",
    title: "Recover Kestrel into cylinder X2",
    why: "A cylinder of its own, rated for flammable refrigerant. Never into R1.",
    learned: "The product is out and weighed.",
    at: ["transfer"],
    done: met("restore", "recovered"),
  },
  {
    id: "restore-evacuate",
    stage: "restore",
    title: "Evacuate, hold, and record it empty",
    why: "The same three acts as before, now for the label refrigerant.",
    learned: "Tight again, and empty.",
    at: ["reading", "vacuum"],
    done: (view) => holdsAt("restore", 1)(view) && met("restore", "vehicle-empty")(view),
  },
  {
    id: "restore-charge",
    stage: "restore",
    title: "Charge the label's mass from R1",
    why: "600 g, weighed, with the oil back. The van must leave as its label says.",
    learned: "The van is back on R134a.",
    at: ["transfer"],
    done: met("restore", "charged"),
  },
  {
    id: "restore-run",
    stage: "restore",
    title: "Run it once more, in the morning",
    why: "If the van itself changed while Kestrel was inside, this run shows it. Then the difference does not belong to the can alone.",
    learned: "Before, product, after: the van's own drift can be told from the can.",
    at: ["import", "run"],
    done: met("restore", "baseline-again"),
  },
  {
    id: "restore-again",
    stage: "restore",
    title: "And in the afternoon",
    why: "The last file. From here on you only read.",
    learned: "All readings are in.",
    at: ["import", "run"],
    done: runsAt("restore", 3),
  },
  {
    id: "label-true",
    stage: "restore",
    title: "Look at the van's label",
    why: "The label must say what is inside now. Then the owner and the next workshop are safe.",
    learned: "The vehicle is back as it was.",
    at: ["confirm", "label-true"],
    done: met("restore", "label-true"),
  },
];

const answerSteps: readonly GuideStep[] = [
  {
    id: "compare-look",
    stage: "compare",
    title: "Look: does it cool as well?",
    why: "First as measured, then carried to equal air by the calibrated model of this van. Working it out takes up to a minute. Each difference stands with its interval, against the 2 K that you fixed.",
    learned: "You saw what was not equal between the runs, and what remains once it is made equal.",
    at: [],
    done: looked("compare"),
  },
  {
    id: "hazards-understood",
    stage: "hazards",
    title: "Read what a leak would do",
    why: "The whole charge leaks into the cabin: does it reach the concentration at which it burns, and for how long? It is worked out; nobody releases anything.",
    learned: "The answer is a concentration over time against the lower flammability limit.",
    at: ["confirm", "hazards-understood"],
    done: met("hazards", "hazards-understood"),
  },
  {
    id: "claims-read",
    stage: "claims",
    title: "Read the verdict on each claim",
    why: "Each sentence of the label is supported, contradicted or undecided. Undecided is an honest verdict: the evidence does not reach. Read the page, then confirm.",
    learned: "“6 oz net” met a scale.",
    at: [],
    done: met("claims", "claims-read"),
  },
  {
    id: "closures-read",
    stage: "publish",
    title: "Read the ledger to the end",
    why: "Every gram has a place: in a vessel, lost, or not accounted for. What does not close is published too.",
    learned: "A sceptic reads this first.",
    at: ["confirm", "closures-read"],
    done: met("publish", "closures-read"),
  },
  {
    id: "answer-read",
    stage: "publish",
    title: "Read the report, then save it",
    why: "One file with the answer, the evidence and the log. Whoever opens it needs no network, and can work every number out again. Does it answer the question as it was asked?",
    learned: "That was a whole trial.",
    at: [],
    done: met("publish", "answer-read"),
  },
];

/** From the first gram of the product to the answer. */
export const afterSteps = [
  ...chargeSteps,
  ...runSteps,
  ...identifySteps,
  ...restoreSteps,
  ...answerSteps,
];
