// What may touch metal that stays, said beneath every drawing that is marked out from.
// Common practice: whatever cuts the surface starts a crack, and graphite corrodes aluminium.

export const MARKING_CAUTION =
  'Marker only. Scribe or punch only metal that will be cut away or drilled out. No graphite pencil on aluminium.';

export function MarkingCaution() {
  return (
    <p class="marking-caution">
      {MARKING_CAUTION} <span class="faint">(Common practice.)</span>
    </p>
  );
}
