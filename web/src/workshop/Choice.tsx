// One of a few, as a group of radio buttons for gloved hands.
interface Props<T extends string> {
  legend: string;
  options: [T, string][];
  chosen: T;
  choose: (one: T) => void;
}

export function Choice<T extends string>({ legend, options, chosen, choose }: Props<T>) {
  return (
    <fieldset class="one-of">
      <legend>{legend}</legend>
      <div>
        {options.map(([value, words]) => (
          <label key={value}>
            <input
              type="radio"
              name={legend}
              value={value}
              checked={value === chosen}
              onChange={() => choose(value)}
            />
            {words}
          </label>
        ))}
      </div>
    </fieldset>
  );
}
