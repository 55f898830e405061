// The drawing of a cut, with its reminder beneath, and the cuts in words.
import { Drawn } from '../../reckoner/drawings/Drawn.tsx';
import { REMINDER } from '../SheetDrawing.tsx';
import { MARKING_OUT } from '../words.ts';
import { type CutToDraw, cutWords, drawCut } from './picture.ts';
import './cutting.css';

/** `done`: it is cut, so that nothing is marked out any more. */
export function CutDrawing(props: { cut: CutToDraw; words: string; done?: boolean }) {
  const { cut, words, done = false } = props;
  const steps = cutWords(cut);
  return (
    <figure class="cut-drawing">
      <Drawn draw={(width) => drawCut(cut, width)} words={`${words} ${steps.join(' ')}`} />
      {!done && (
        <figcaption>
          {MARKING_OUT} (Common practice.) {REMINDER}
        </figcaption>
      )}
      {steps.length > 0 && (
        <ol class="cut-steps">
          {steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      )}
    </figure>
  );
}
