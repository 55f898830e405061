// The layers of a joint, in order from the factory head.
import { useState } from 'preact/hooks';
import { row } from '../shell/things.ts';
import type { Length } from '../twins/lengths.ts';
import { type Line, type LineLayer, TREAT_WORDS, type Treat } from './lines.ts';
import { PartPicker } from './PartPicker.tsx';
import { ThicknessField } from './ThicknessField.tsx';

interface Props {
  line: Line;
  onChange: (layers: LineLayer[]) => void;
  onWrong: (layer: string, sentence: string) => void;
}

export function LayerFields({ line, onChange, onWrong }: Props) {
  const [picking, setPicking] = useState(line.layers.length < 2);
  const { layers } = line;
  const change = (at: number, more: Partial<LineLayer>): void =>
    onChange(layers.map((layer, index) => (index === at ? { ...layer, ...more } : layer)));
  const moveUp = (at: number): void => {
    const next = [...layers];
    const [taken] = next.splice(at, 1);
    if (taken) next.splice(at - 1, 0, taken);
    onChange(next);
  };
  const add = (id: string): void => {
    const known = row(id)?.fields.thickness as Length | undefined;
    onChange([...layers, { part: id, thickness: known ?? null, treat: 'plain' }]);
    setPicking(false);
  };
  return (
    <fieldset class="layers">
      <legend>Layers, beginning at the factory head</legend>
      <ol>
        {layers.map((layer, at) => (
          <li key={layer.part}>
            <b>{row(layer.part)?.name ?? 'a part not on this phone'}</b>
            <div class="two-beside">
              <label>
                Holes
                <select
                  value={layer.treat}
                  onChange={(event) => change(at, { treat: event.currentTarget.value as Treat })}
                >
                  {(Object.keys(TREAT_WORDS) as Treat[]).map((treat) => (
                    <option value={treat} key={treat}>
                      {TREAT_WORDS[treat]}
                    </option>
                  ))}
                </select>
              </label>
              <div class="beside">
                {at > 0 && (
                  <button type="button" onClick={() => moveUp(at)}>
                    Move up
                  </button>
                )}
                <button
                  type="button"
                  onClick={() => {
                    onWrong(layer.part, '');
                    onChange(layers.filter((_, index) => index !== at));
                  }}
                >
                  Take out
                </button>
              </div>
            </div>
            <ThicknessField
              value={layer.thickness ?? null}
              onChange={(thickness, wrong) => {
                onWrong(layer.part, wrong);
                change(at, { thickness });
              }}
            />
          </li>
        ))}
      </ol>
      {picking ? (
        <PartPicker prompt="Next layer" not={layers.map((layer) => layer.part)} onPick={add} />
      ) : (
        layers.length < 12 && (
          <button type="button" onClick={() => setPicking(true)}>
            Another layer
          </button>
        )
      )}
    </fieldset>
  );
}
