// Hatching for a drawing: metal that is cut away, or that is kept out of.
export function Hatch({ id }: { id: string }) {
  return (
    <pattern
      id={id}
      width="7"
      height="7"
      patternUnits="userSpaceOnUse"
      patternTransform="rotate(45)"
    >
      <line x1="0" y1="0" x2="0" y2="7" class="hatch" />
    </pattern>
  );
}
