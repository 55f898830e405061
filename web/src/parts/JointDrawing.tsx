// A joint in side section: its layers from the factory head down, and what goes through them.
import { openedPhone } from '../shell/state.ts';
import { row } from '../shell/things.ts';
import { showThickness } from '../twins/lengths.ts';
import { drawJoint } from './joint.ts';
import './line.css';
import { type Line, type LineLayer, TREAT_WORDS } from './lines.ts';

export const nameOf = (id: string): string => row(id)?.name ?? 'a part not on this phone';

function layerWords({ thickness, treat }: LineLayer): string {
  const { unit } = openedPhone().identity;
  const thick = thickness ? showThickness(thickness.nm, unit) : 'thickness not known';
  return `${TREAT_WORDS[treat]}, ${thick}`;
}

export function JointDrawing({ line, added }: { line: Line; added?: ReadonlySet<string> }) {
  const drawn = drawJoint(line);
  const layers = line.layers.map((layer) => `${nameOf(layer.part)}, ${layerWords(layer)}`);
  return (
    <div class="joint">
      <svg
        viewBox={`0 0 120 ${drawn.height}`}
        role="img"
        aria-label={`The joint from the factory head: ${layers.join('; ')}`}
      >
        <path class="sheets" d={drawn.sheets} />
        <path class="solid" d={drawn.head} />
        <path class="centre" d={drawn.centre} />
      </svg>
      <LayerList layers={line.layers} {...(added ? { added } : {})} />
    </div>
  );
}

interface ListProps {
  layers: readonly LineLayer[];
  added?: ReadonlySet<string>; // the parts that came in
}

/** The layers with the way to each part. */
export function LayerList({ layers, added }: ListProps) {
  return (
    <ol class="joined">
      {layers.map((layer) => (
        <li key={`${layer.part} ${layer.treat}`}>
          <a class="layer-name" href={`/part/${layer.part}`}>
            {nameOf(layer.part)}
          </a>
          <span>
            {layerWords(layer)}
            {added?.has(layer.part) && ', new here'}
          </span>
        </li>
      ))}
    </ol>
  );
}
