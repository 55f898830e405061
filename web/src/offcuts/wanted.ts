// What an offcut is, what is wanted of one, and what the search answers. Lengths are whole nm.

import type { Curve } from '../twins/curve';
import type { Placement, Point } from '../twins/fit';
import type { Unit } from '../twins/lengths';
import type { OddPlacement } from './odd';
import type { SectionStock } from './sections/section';

export type Measure = { readonly nm: number; readonly text: string };

/** The state of an offcut, as on its card. Grain: parallel to side a or side b. */
export type Offcut = {
  readonly id: string;
  readonly name: string;
  readonly codes: readonly string[];
  readonly place: string | null;
  readonly alloy: string | null;
  readonly temper: string | null;
  readonly clad: 'clad' | 'bare' | 'unknown';
  readonly form: string;
  readonly thickness: Measure;
  readonly measured: 'bare' | 'over film';
  readonly known_by: 'mill marking' | 'tagged stock' | 'kit part' | 'unknown';
  readonly shape: Rectangle | Outline | Unsaid;
  readonly grain: 'a' | 'b' | 'unknown';
  readonly reserved: { readonly for: string | null; readonly text: string } | null;
  readonly measure_again: boolean;
  readonly retired: unknown;
  /** of angle, channel and tube; null where it has still to be measured */
  readonly section?: SectionStock | null;
  /** what fits in its outline, or why that cannot be said; none while it is not measured */
  readonly measured_as?: Curve | { readonly why: string } | undefined;
};
/** Of an odd shape: corners in nm, lowest x and y 0; those of a hole go the other way round. */
export type Outline = {
  readonly kind: 'outline';
  readonly outer: readonly Point[];
  readonly holes: readonly (readonly Point[])[];
};
/** Nobody said, or it is of a sort that is not searched here. */
export type Unsaid = { readonly kind: 'unsaid' };
export type Rectangle = { readonly kind: 'rectangle'; readonly a: Measure; readonly b: Measure };

export type WantedThickness =
  | { readonly kind: 'any' }
  | { readonly kind: 'gauge'; readonly nm: number }
  | { readonly kind: 'at least'; readonly nm: number }
  | { readonly kind: 'range'; readonly from_nm: number; readonly to_nm: number };

/** What is wanted. A null alloy or temper takes any; the grain is that of the blank. */
export type Want = {
  readonly alloy: string | null;
  readonly temper: string | null;
  readonly cladding: 'clad' | 'bare' | 'any';
  readonly thickness: WantedThickness;
  readonly width_nm: number;
  readonly height_nm: number;
  readonly grain: 'any' | 'along width' | 'along height';
  readonly clearance_nm: number;
  readonly structure: boolean;
  /** the piece this is for: what is reserved for it may be cut */
  readonly wanted_for?: string | null;
};

export type ListedGauge = {
  readonly nm: number;
  readonly text: string;
  readonly family: string;
  readonly tolerance_nm: number;
};
export type StructureRule = {
  readonly field: string;
  readonly value: string;
  readonly code: string;
  readonly sentence: string;
};

/** The workshop's unit and the generated tables (generated/gauges.json, generated/materials.json). */
export type Shop = {
  readonly unit: Unit;
  readonly gauges: readonly ListedGauge[];
  readonly metals: readonly { readonly alloy: string; readonly temper: string }[];
  readonly never_for_structure: readonly StructureRule[];
  /** a remainder narrower than this counts as spoiled */
  readonly least_useful_nm?: number;
};

/** One reason why an offcut does not serve; `far` grows with how much another piece it is. */
export type Miss =
  | {
      readonly code:
        | 'metal'
        | 'temper'
        | 'cladding'
        | 'cladding unknown'
        | 'thicker'
        | 'thinner'
        | 'grain unknown'
        | 'measure again'
        | 'reserved'
        | 'not measured'
        | 'unsaid';
      readonly far: number;
    }
  | {
      readonly code: 'size';
      readonly far: number;
      /** what is wanting along the grain (or the blank's length) and across it (or its width) */
      readonly short_nm: number;
      readonly narrow_nm: number;
      readonly by_grain: boolean;
    }
  | { readonly code: 'cannot be measured'; readonly far: number; readonly why: string }
  | {
      readonly code: 'structure';
      readonly far: number;
      readonly rule: string;
      readonly sentence: string;
    };

export type Caution =
  | { readonly code: 'over film' }
  | { readonly code: 'a little thinner'; readonly nm: number; readonly wanted_nm: number };

export type Serves = {
  readonly offcut: Offcut;
  readonly placement: Placement | OddPlacement;
  readonly reason: string;
  readonly cautions: readonly string[];
};
export type NearMiss = {
  readonly offcut: Offcut;
  readonly reasons: readonly {
    readonly code: Miss['code'] | 'sides' | 'hand';
    readonly text: string;
  }[];
};
/** `more_*`: how many further ones were found and not listed. */
export type Found = {
  readonly serves: readonly Serves[];
  readonly near: readonly NearMiss[];
  readonly more_serve: number;
  readonly more_near: number;
  readonly searched: number;
};
