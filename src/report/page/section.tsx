import type { ComponentChildren } from "preact";

/** Drawings at these widths: a page at a desk or on paper, and a phone held upright. */
export const WIDE = 664;
export const NARROW = 340;

/** A picture drawn twice, each with its own ids; the style sheet shows the one that fits. */
export const Twice = ({
  id,
  draw,
}: {
  id: string;
  draw: (id: string, width: number) => ComponentChildren;
}) => (
  <>
    <div class="only-wide">{draw(`${id}-w`, WIDE)}</div>
    <div class="only-narrow">{draw(`${id}-n`, NARROW)}</div>
  </>
);

export interface SectionEntry {
  readonly id: string;
  readonly title: string;
}

export const Section = ({
  id,
  title,
  lead,
  children,
}: SectionEntry & { lead?: ComponentChildren; children?: ComponentChildren }) => (
  <section id={id} aria-labelledby={`${id}-head`}>
    <h2 id={`${id}-head`}>{title}</h2>
    {lead !== undefined && <p class="lead">{lead}</p>}
    {children}
  </section>
);

/** Name and value, one under the other. */
export const Facts = ({
  facts,
}: {
  facts: readonly (readonly [string, ComponentChildren | undefined])[];
}) => (
  <dl class="facts">
    {facts
      .filter(([, value]) => value !== undefined && value !== "")
      .map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
  </dl>
);
