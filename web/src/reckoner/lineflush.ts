// Whether the layers of a rivet line can take its flush heads as their holes are made, by the
// recorded rule. Loads the rules.
import type { Line, LineLayer } from '../parts/lines.ts';
import type { Segment } from '../parts/segments.ts';
import type { Unit } from '../twins/lengths.ts';
import { isUnreckoned, reckon } from '../twins/reckon.ts';
import { rivetSize } from './address.ts';
import { RULES } from './book.ts';
import { numberOf } from './drawn.ts';

export interface FlushSaid {
  part: string;
  verdict: string;
  why: string;
}

/**
 * What the rule says of each layer that the head reaches, from the factory head down to the first
 * that is countersunk. Nothing for a protruding head, or where a figure is missing.
 */
export function flushSaid(
  { head }: Pick<Line, 'head'>,
  { layers, fastener }: Pick<Segment, 'layers' | 'fastener'>,
  unit: Unit,
): FlushSaid[] {
  const diameter = rivetSize(fastener.text);
  if (head !== 'flush' || fastener.kind !== 'rivet' || !diameter) return [];
  const said: FlushSaid[] = [];
  const [first] = layers;
  if (first?.treat === 'plain')
    return [
      {
        part: first.part,
        verdict: 'fails',
        why: 'A flush head sits in a dimple or a countersink.',
      },
    ];
  for (const [at, layer] of layers.entries()) {
    const above = layers[at - 1];
    if (above && above.treat !== 'dimple') {
      if (layer.treat !== 'plain') said.push(idle(layer));
      continue;
    }
    if (layer.treat === 'plain') said.push(inTheWay(layer));
    else if (layer.treat === 'dimple') said.push(...dimpled(layer));
    else said.push(...countersunk(layers, at, diameter, unit));
  }
  return said;
}

const idle = ({ part }: LineLayer): FlushSaid => ({
  part,
  verdict: 'check',
  why: 'The layer above it is not dimpled: nothing sits in what is made here.',
});
const inTheWay = ({ part }: LineLayer): FlushSaid => ({
  part,
  verdict: 'fails',
  why: 'The dimple of the layer above has no room in a plain hole: dimple or countersink it too.',
});

function dimpled({ part, thickness }: LineLayer): FlushSaid[] {
  const most = numberOf(RULES, 'dimple thickest');
  if (!thickness || most === null) return [];
  return thickness.nm > most
    ? [{ part, verdict: 'check', why: 'It is thicker than is usually dimpled.' }]
    : [{ part, verdict: 'meets', why: 'Thin enough to be dimpled.' }];
}

function countersunk(
  layers: readonly LineLayer[],
  at: number,
  diameter: string,
  unit: Unit,
): FlushSaid[] {
  const { part, thickness } = layers[at] as LineLayer;
  const above = at ? layers[at - 1]?.thickness : undefined;
  if (at > 1)
    return [
      {
        part,
        verdict: 'not covered',
        why: 'The published rule is for one dimpled layer above a countersunk one. Ask the maker.',
      },
    ];
  if (!thickness || (at && !above)) return [];
  const typed: Record<string, string> = { thickness: `${thickness.nm / 1e6} mm`, diameter };
  if (above) typed.under = `${above.nm / 1e6} mm`;
  const found = reckon(RULES, 'flush', typed, unit);
  if (isUnreckoned(found)) return [];
  // the rule may say "dimple it": that is no room for this countersink
  const fails = found.verdict === 'meets' && found.treatment !== 'countersink';
  return [{ part, verdict: fails ? 'fails' : found.verdict, why: found.why }];
}
