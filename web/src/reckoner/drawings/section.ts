// Sheets about one rivet in side section, in nm from its centre line and down from the upper face
// of the stack. A dimpled sheet keeps its thickness square to its face, so that each nests in the
// one above; a countersunk one is cut away to what lies in it: the head, or the dimple above.

/** One sheet of a joint; lengths in nm. The first is at the factory head. */
export interface StackLayer {
  thickness: number;
  treat: 'plain' | 'dimple' | 'countersink';
  /** what the sheet is, "rib flange"; said in the list beneath the drawing */
  name?: string;
  /** put in after the line was laid out: hatched, and said so in words */
  added?: boolean;
}
/** Lengths in nm, the angle in degrees over all. A universal head is a dome on the sheet. */
export type RivetHead =
  | { shape: 'universal'; diameter: number; height: number }
  | { shape: 'flush'; diameter: number; height: number; angle: number };

/** Radius and depth, nm. */
export type At = readonly [radius: number, depth: number];

export interface SheetSection {
  /** the faces to the right of the hole, each from far out inwards */
  upper: At[];
  lower: At[];
  /** the flat faces of the sheet away from the rivet */
  from: number;
  to: number;
  /** the head, or the dimple above, goes through a countersunk sheet and leaves a knife edge */
  knife: boolean;
  /** what lies above, the head or a dimple, has no room in this sheet */
  clash: boolean;
}
export interface Section {
  sheets: SheetSection[];
  /** the flat thickness of them all */
  grip: number;
  /** the deepest metal at the hole: where a shop head sits */
  rim: number;
  /** the radius beyond which all is flat */
  reach: number;
  /** how far the upper face of the head stands above the sheet: a flush head in a plain sheet does */
  proud: number;
}

/** The section of `layers` at a hole of this diameter (nm), or the shank's where they are the same. */
export function section(layers: readonly StackLayer[], hole: number, head: RivetHead): Section {
  const half = head.shape === 'flush' ? (head.angle / 2) * (Math.PI / 180) : Math.PI / 2;
  const slope = head.shape === 'flush' ? 1 / Math.tan(half) : 0;
  const edge = hole / 2;
  const sunk = layers[0]?.treat !== 'plain';
  const deep = (head.diameter / 2 - edge) * slope;
  const proud = head.shape === 'flush' && !sunk ? deep : 0;
  // the faces follow the cone of the head, moved down by what lies between
  let moved = -proud;
  let flat = 0;
  const cone = (radius: number): number =>
    head.shape === 'flush' ? moved + (head.diameter / 2 - radius) * slope : -1;
  const meets = (depth: number): number =>
    slope > 0 ? head.diameter / 2 - (depth - moved) / slope : edge;
  const sheets: SheetSection[] = [];
  let rim = 0;
  let reach = edge;
  for (const { thickness, treat } of layers) {
    const next = flat + thickness;
    const inCone = cone(edge) > flat + 1;
    const upper: At[] = [];
    const lower: At[] = [];
    let [knife, clash] = [false, false];
    if (inCone && treat !== 'plain') {
      reach = Math.max(reach, meets(flat));
      upper.push([meets(flat), flat]);
      knife = treat === 'countersink' && cone(edge) >= next - 1;
      upper.push(knife ? [meets(next), next] : [edge, cone(edge)]);
    } else {
      clash = inCone;
      upper.push([edge, flat]);
    }
    if (treat === 'dimple' && inCone) {
      moved += thickness / Math.sin(half);
      reach = Math.max(reach, meets(next));
      lower.push([meets(next), next], [edge, cone(edge)]);
      rim = Math.max(rim, cone(edge));
    } else if (!knife) lower.push([edge, next]);
    sheets.push({ upper, lower, from: flat, to: next, knife, clash });
    flat = next;
    rim = Math.max(rim, next);
  }
  const top = sheets[0];
  if (top && proud > 0) top.clash = true;
  return { sheets, grip: flat, rim, reach, proud };
}
