import { type GuideStep, holdsAt, looked, met, readingsAt, runsAt } from "./step.ts";

/** Plan and Prove: all that is settled before the first valve turns. */
const planSteps: readonly GuideStep[] = [
  {
    id: "vehicle",
    stage: "plan",
    title: "Describe the van",
    why: "The question is already fixed: you cannot move it once you have seen the readings. Now say what the van's label says. What the van should read is worked out from this.",
    learned: "The label's refrigerant and charge are what everything else is held against.",
    at: ["add", "vehicle"],
    done: ({ vehicle }) => vehicle !== undefined,
  },
  {
    id: "instruments",
    stage: "plan",
    title: "List the instruments with their class",
    why: "A gauge is only as good as its class. With it, each reading carries its own uncertainty. Try one yourself, or let the guide list all seven.",
    learned: "From now on each reading stands with what its instrument can be wrong by.",
    at: ["add", "instrument"],
    done: met("plan", "instruments"),
  },
  {
    id: "product",
    stage: "plan",
    title: "List the can that was bought",
    why: "Write down each claim as the label prints it. The claims are judged at the end, against what you weigh and read.",
    learned: "Kestrel has a round of its own now: Recover, Evacuate, Charge, Run, Identify.",
    at: ["add", "product"],
    done: ({ products }) => products.length > 0,
  },
  {
    id: "vessels",
    stage: "plan",
    title: "List the cylinders and the cans",
    why: "Every gram is in a vessel. R1 takes the van's own refrigerant. X2 is kept for Kestrel alone and rated for flammable refrigerant: mixed refrigerant is waste.",
    learned: "The ledger knows where each gram may go, and how full each cylinder may be.",
    at: ["add", "vessel"],
    done: ({ vessels }) =>
      vessels.filter(({ kind }) => kind === "cylinder").length >= 2 &&
      vessels.some(({ kind }) => kind === "can"),
  },
  {
    id: "hazards-read",
    stage: "plan",
    title: "Read the cautions, then confirm",
    why: "Kestrel burns, and the van was not built for it. In real work you stop here if you have no flammable-rated equipment, no ventilation or no licence.",
    learned: "Each caution comes back at the step that it belongs to.",
    at: ["confirm", "hazards-read"],
    done: met("plan", "hazards-read"),
  },
  {
    id: "law-asked",
    stage: "plan",
    title: "Confirm that you asked about the law",
    why: "Some places forbid flammable refrigerant in a vehicle that was not designed for it. The tool cannot know your place. For practice, confirm it.",
    learned:
      "The plan is whole. It can be corrected later, and the first wording stays in the log.",
    at: ["confirm", "law-asked"],
    done: met("plan", "law-asked"),
  },
];

const proveSteps: readonly GuideStep[] = [
  {
    id: "prove-rest",
    stage: "prove",
    title: "Type the pressures of the cold van",
    why: "The van stood overnight with its engine off. At rest the pressure follows from the metal's temperature and from what is inside. It does not tell how much is inside. Begin with the metal: the band rests on it.",
    learned:
      "The mark of each reading lies in its band: the van holds what follows R134a, as its label says.",
    at: ["reading", "metal-temperature"],
    done: met("prove", "static"),
  },
  {
    id: "prove-run",
    stage: "prove",
    title: "Bring in the morning's logger file",
    why: "The van ran parked, then on the road. The app finds where the readings settled; you confirm each part as a run. Save the file and import it yourself, or have it entered.",
    learned: "Two runs on the label refrigerant, each with settled figures and their scatter.",
    at: ["import", "run"],
    done: met("prove", "baseline"),
  },
  {
    id: "prove-again",
    stage: "prove",
    title: "Bring in the afternoon as well",
    why: "One run says nothing about how much runs differ. The same van in other air shows it.",
    learned:
      "Two mornings and afternoons would be better still: the plan says what difference you can see.",
    at: ["import", "run"],
    done: runsAt("prove", 3),
  },
  {
    id: "prove-look",
    stage: "prove",
    title: "Look: is the van healthy?",
    why: "On this page each reading stands in its band, and below it the app says which fault, if any, would explain the readings. A sick van must not be blamed on the can.",
    learned: "You saw the van's own state before anything was changed.",
    at: [],
    done: looked("prove"),
  },
];

const emptySteps: readonly GuideStep[] = [
  {
    id: "recover-move",
    stage: "recover",
    title: "Recover into cylinder R1, and weigh it",
    why: "What comes out is a transfer: from the van, to R1, with the scale's figure before and after. Nothing is vented, and the cylinder stays below its fill limit.",
    learned: "574 g are in R1. The label says 600 g: a little was missing when the van came.",
    at: ["transfer"],
    done: met("recover", "recovered"),
  },
  {
    id: "recover-end",
    stage: "recover",
    title: "Read the end pressure and the oil",
    why: "The last vapour stays inside; its pressure tells how much. The oil that came out must go back.",
    learned: "A few grams are still in the van as vapour, and the ledger counts them.",
    at: ["reading", "low-side"],
    done: (view) => met("recover", "end-pressure")(view) && met("recover", "oil")(view),
  },
  {
    id: "evacuate-first",
    stage: "evacuate",
    title: "Pull a vacuum and watch it hold",
    why: "Close the valve to the pump and read the gauge for half an hour. How the pressure rises tells whether the system is tight, wet or leaking.",
    learned: "This hold rose on and on without levelling. That is a leak, and the app said so.",
    at: ["reading", "vacuum"],
    done: (view) => met("evacuate", "vacuum")(view) && holdsAt("evacuate", 1)(view),
  },
  {
    id: "evacuate-again",
    stage: "evacuate",
    title: "Mend the valve core and hold again",
    why: "The leak was at a service valve's core. It was replaced, and the system was evacuated again. The bad hold stays in the log: that is what makes the good one believable.",
    learned: "The second hold levelled: tight and dry.",
    at: ["import", "hold"],
    done: (view) => holdsAt("evacuate", 2)(view) && readingsAt("evacuate", "vacuum")(view),
  },
  {
    id: "evacuate-empty",
    stage: "evacuate",
    title: "Record that the van is empty",
    why: "What the ledger still expected inside is now booked as not accounted for, in the open.",
    learned: "The van holds nothing. What goes in next is known to the gram.",
    at: ["empty"],
    done: met("evacuate", "vehicle-empty"),
  },
];

/** Everything before the can is opened. */
export const beforeSteps = [...planSteps, ...proveSteps, ...emptySteps];
