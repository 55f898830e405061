// An outline that was not typed: left over from a cut, or out of a drawing file.
import { Problem } from '../Choices.tsx';
import { shapeSentence } from '../outline/told.ts';
import type { ShapeProps } from './ShapeQuestion.tsx';

export function FileForm({ shape, asked, unit }: ShapeProps) {
  const { given } = shape;
  return (
    <div class="field" data-wrong={asked.file ? '' : undefined}>
      {given && (
        <p>{shapeSentence({ kind: 'outline', ...given.region, entered: given.entered }, unit)}</p>
      )}
      <Problem text={asked.file} />
    </div>
  );
}
