import type { Answer } from "../../calculations/index.ts";
import { formatValue, fromSI } from "../../units/index.ts";
import type { StageView, TrialView } from "../../trial/index.ts";
import type { Job } from "../engine/batch.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { Fold } from "../look/fold.tsx";
import { isWide } from "../look/is-wide.ts";
import { CautionLines } from "../fluids/said.tsx";
import { changeDraft, draftOf } from "../shell/drafts.ts";
import { view } from "../shell/log-keeper.ts";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
}

const parts = [
  { name: "flow", label: "The pump moves in a minute", start: "5 ft3" },
  { name: "ultimate", label: "The pump’s own deepest vacuum", start: "25 micron" },
  { name: "bore", label: "Bore of the hose", start: "4.8 mm" },
  { name: "length", label: "Length of the hose", start: "1.8 m" },
  { name: "hoses", label: "Hoses side by side", start: "2" },
  { name: "water", label: "Liquid water suspected inside", start: "0 g" },
] as const;
type Name = (typeof parts)[number]["name"];

const VOLUME = "3 L";

/** How deep is enough here, and how long this pump and hose set need at least. */
export function EvacuateBoard({ stage }: Props) {
  const seen = view.value;
  const key = `pump ${stage.stage}`;
  const draft = draftOf(key);
  const of = (name: Name): string =>
    draft[name] ?? parts.find((one) => one.name === name)?.start ?? "";
  const { answers, failed } = useAnswers(jobsOf(seen, of));
  const [depth, pull] = answers;
  const held = seen.traces.some(({ kind, stage: at }) => kind === "hold" && at === stage.stage);
  return (
    <Fold
      level={2}
      title="How deep, and how long"
      said="500 micron, and the least time for it"
      // In Restore it lies behind once the vacuum was watched.
      open={isWide() || !held || stage.stage === "evacuate"}
    >
      {failed && <p class="quiet">This device cannot compute it.</p>}
      <Depth answer={depth} seen={seen} />
      <Pull answer={pull} />
      <Fold row title="This pump and hose set" said={hoseWords(of)}>
        {parts.map(({ name, label }) => (
          <FieldFrame key={name} id={`pump-${name}`} label={label}>
            <input
              id={`pump-${name}`}
              class="text"
              autocomplete="off"
              value={of(name)}
              onInput={(event) => {
                changeDraft(key, { [name]: event.currentTarget.value });
              }}
            />
          </FieldFrame>
        ))}
        {pull?.kind === "answer" && <p class="quiet">{pull.assumptions?.join(" ")}</p>}
      </Fold>
      {depth?.kind === "answer" && <CautionLines cautions={depth.cautions} />}
    </Fold>
  );
}

const hoseWords = (of: (name: Name) => string): string =>
  `${of("flow")} a minute down to ${of("ultimate")}; hoses: ${of("hoses")}, ${of("length")} of ${of("bore")}; water: ${of("water")}`;

function jobsOf(seen: TrialView, of: (name: Name) => string): Job[] {
  const shop = seen.readings.findLast(({ quantity }) => quantity === "shop-temperature");
  const T = shop?.value ?? 293.15;
  const barometer = seen.atmosphere.value;
  const hose = { bore: of("bore"), length: of("length") };
  const count = Math.min(6, Math.max(0, Math.round(Number(of("hoses")) || 0)));
  return [
    { name: "evacuation-depth", input: { T, barometer } },
    {
      name: "pump-down",
      input: {
        volume: seen.vehicle?.internalVolume ?? VOLUME,
        pump: { flow: of("flow"), ultimate: of("ultimate") },
        hoses: Array.from({ length: count }, () => hose),
        to: "500 micron",
        T,
        water: of("water"),
        barometer,
      },
    },
  ];
}

interface DepthResult {
  readonly boiling: number;
  readonly reading: { readonly deep: number; readonly deepest: number };
  readonly gaugeOnly: number;
  readonly warmFirst: boolean;
}

const inHg = (Pa: number): string => `${(Pa / 3386.389).toFixed(2)} inHg`;
const micron = (Pa: number): string => formatValue(fromSI(Pa, "micron"), "micron");

function Depth({
  answer,
  seen,
}: {
  readonly answer: Answer | undefined;
  readonly seen: TrialView;
}) {
  if (answer?.kind !== "answer")
    return <p class="quiet">{answer ? "No answer here." : "Working it out…"}</p>;
  const { boiling, reading, gaugeOnly, warmFirst } = answer.result as DepthResult;
  const shop = seen.readings.some(({ quantity }) => quantity === "shop-temperature");
  return (
    <>
      <p>
        Water boils below <strong class="figure">{micron(boiling)}</strong> at{" "}
        {shop ? "the shop’s temperature" : "20 °C; read the shop’s temperature"}. Practice goes on
        to <strong class="figure">500 micron</strong>, because the cold spots are colder.
        {warmFirst &&
          " The metal is so cold that water hardly leaves at 500 micron: warm it first."}
      </p>
      <p>
        A needle gauge shows <span class="figure">{inHg(reading.deep)}</span> of vacuum there, at
        most <span class="figure">{inHg(reading.deepest)}</span> here. Without a micron gauge settle
        for no less than <span class="figure">{inHg(gaugeOnly)}</span>; such a gauge cannot tell 500
        from 2000 micron.
      </p>
    </>
  );
}

interface PullResult {
  readonly reached: boolean;
  readonly time?: number;
  readonly deepest?: number;
  readonly limit?: "pump" | "hose" | "water";
}

const holdsUp = {
  pump: "The pump holds it up longest.",
  hose: "The hoses hold it up longest: wider and shorter ones help, a larger pump does not.",
  water: "The water holds it up longest: heat and time help, not pump size.",
} as const;

const spoken = (s: number): string =>
  s < 90 ? `${s.toFixed(0)} s` : `${(s / 60).toFixed(s < 600 ? 1 : 0)} min`;

function Pull({ answer }: { readonly answer: Answer | undefined }) {
  if (!answer) return <p class="quiet">Working it out…</p>;
  if (answer.kind === "invalid") {
    const [first] = answer.issues;
    return (
      <p class="field-issue" role="alert">
        {first?.field}: {first?.accepted}
      </p>
    );
  }
  if (answer.kind !== "answer") return <p>{answer.message}</p>;
  const { reached, time, deepest, limit } = answer.result as PullResult;
  return (
    <p role="status">
      {reached && time !== undefined
        ? `With this pump and hose set 500 micron at the system takes at least ${spoken(time)}. ${limit ? holdsUp[limit] : ""}`
        : `This pump stops at ${micron(deepest ?? 0)}: it cannot reach 500 micron.`}
    </p>
  );
}
