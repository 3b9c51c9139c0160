import type { Material } from "../bulk/material.ts";
import { blendDiagram } from "./blend-diagram.ts";
import type { DiagramKind, PhaseDiagram } from "./diagram-shape.ts";
import { pureDiagram } from "./pure-diagram.ts";

/**
 * The lines of a phase diagram within sensible limits, per kg.
 *
 * A place without a state is a gap with its reason; every number is finite.
 *
 * Checked: diagram.test.ts
 */
export const phaseDiagram = (material: Material, kind: DiagramKind): PhaseDiagram =>
  material.kind === "pure" ? pureDiagram(material, kind) : blendDiagram(material, kind);
