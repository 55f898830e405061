// Where in a stack a layer comes in, counted from the factory head.
import { Choices } from '../offcuts/Choices.tsx';
import { row } from '../shell/things.ts';
import type { LineLayer } from './lines.ts';

const nameOf = (id: string): string => row(id)?.name ?? 'a part not on this phone';

interface WhereProps {
  layers: readonly LineLayer[];
  under: number;
  onChange: (under: number) => void;
  /** told apart from others in the same form */
  name?: string;
}

export function WhereFields({ layers, under, onChange, name = 'under' }: WhereProps) {
  const label = (at: number): string => {
    const [above, below] = [layers[at - 1], layers[at]];
    if (!above) return `next to the factory head, above ${nameOf(below?.part ?? '')}`;
    if (!below) return `last, beneath ${nameOf(above.part)}`;
    return `between ${nameOf(above.part)} and ${nameOf(below.part)}`;
  };
  return (
    <Choices
      legend="Where in the stack, from the factory head"
      name={name}
      columns={1}
      value={String(Math.min(under, layers.length))}
      onChange={(value) => onChange(Number(value))}
      choices={[...layers, null].map((_, at) => ({ value: String(at), label: label(at) }))}
    />
  );
}
