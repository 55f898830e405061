// A joint in side section: its layers from the factory head down, and what goes through them.
import { openedPhone } from '../shell/state.ts';
import { row } from '../shell/things.ts';
import { showThickness } from '../twins/lengths.ts';
import { drawJoint } from './joint.ts';
import { type Line, TREAT_WORDS } from './lines.ts';

export function JointDrawing({ line }: { line: Line }) {
  const drawn = drawJoint(line);
  const { unit } = openedPhone().identity;
  const layers = line.layers.map(({ part, thickness, treat }) => {
    const name = row(part)?.name ?? 'a part not on this phone';
    const thick = thickness ? showThickness(thickness.nm, unit) : 'thickness not known';
    return { part, name, words: `${TREAT_WORDS[treat]}, ${thick}` };
  });
  return (
    <div class="joint">
      <svg
        viewBox={`0 0 120 ${drawn.height}`}
        role="img"
        aria-label={`The joint from the factory head: ${layers.map(({ name, words }) => `${name}, ${words}`).join('; ')}`}
      >
        <path class="sheets" d={drawn.sheets} />
        <path class="solid" d={drawn.head} />
        <path class="centre" d={drawn.centre} />
      </svg>
      <ol>
        {layers.map(({ part, name, words }) => (
          <li key={part}>
            <a class="layer-name" href={`/part/${part}`}>
              {name}
            </a>
            <span>{words}</span>
          </li>
        ))}
      </ol>
    </div>
  );
}
