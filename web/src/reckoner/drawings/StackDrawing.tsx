// The joint in side section, with its sheets listed beneath as they lie.
import { Drawn } from './Drawn.tsx';
import { drawStack, type Stack } from './stack.ts';
import { sheetsWords, stackWords } from './words.ts';

export function StackDrawing(stack: Stack) {
  if (stack.layers.length === 0) return null;
  return (
    <figure class="shop-drawing">
      <Drawn draw={(width) => drawStack(stack, width)} words={stackWords(stack)} />
      <ol aria-hidden="true">
        {sheetsWords(stack, stack.layers).map((words, at) => (
          <li key={at}>{words}</li>
        ))}
      </ol>
    </figure>
  );
}

/** A flush joint is a joint: the head of the rivet says which. */
export { StackDrawing as FlushDrawing };
