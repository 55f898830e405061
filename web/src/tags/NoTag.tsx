// An address with something in it that is no tag code.
import { Frame } from '../shell/Frame.tsx';

export function NoTag({ sentence }: { sentence: string }) {
  return (
    <Frame title="Not a tag">
      <p class="problem">{sentence}</p>
      <a class="button main" href="/scan">
        Scan the tag
      </a>
    </Frame>
  );
}
