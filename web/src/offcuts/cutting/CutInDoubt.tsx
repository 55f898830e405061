// Above the offcuts: metal that two phones cut, as long as something that is left of it is in doubt.
import { row, rows } from '../../shell/things.ts';
import { cutDoubt, cutsOf } from './doubt.ts';

export function CutInDoubt() {
  const doubtful = rows('offcut', true).filter(
    (whole) =>
      whole.fields.cut_doubt !== undefined &&
      cutsOf(whole).some(({ remnants }) =>
        remnants.some((id) => {
          const left = row(id);
          return left !== undefined && !left.retired && cutDoubt(left, row) !== '';
        }),
      ),
  );
  if (!doubtful.length) return null;
  return (
    <div class="note">
      <p>Measure again what is left of these. They were cut on two phones that had not met.</p>
      <ul class="plain">
        {doubtful.map(({ id, name }) => (
          <li key={id}>
            <a href={`/offcut/${id}`}>{name}</a>
          </li>
        ))}
      </ul>
    </div>
  );
}
