// The rivet lines that a part is in.
import './parts.css';
import { rows } from '../shell/things.ts';
import { fastenerWords, type Line } from './lines.ts';
import { SmallStrip } from './StepStrip.tsx';
import { counted } from './words.ts';

export function LinesOf({ id }: { id: string }) {
  const lines = rows('line').filter((one) => one.strips[id]);
  if (!lines.length) return null;
  return (
    <section>
      <h2>Rivet lines of their own</h2>
      <ul class="plain part-list">
        {lines.map((row) => {
          const line = row.fields.line as Line;
          const holes = line.count === null ? 'holes not counted' : counted(line.count, 'hole');
          return (
            <li key={row.id}>
              <a href={`/line/${row.id}`}>
                <span class="words">
                  <b class="name">{row.name}</b>
                  <span class="under">
                    {holes} · {fastenerWords(line)}
                  </span>
                </span>
                <SmallStrip strip={row.strips[id] ?? ''} about={row.name} />
              </a>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
