// The screen of an offcut that this phone does not know, or not yet.
import { Frame } from '../shell/Frame.tsx';

export function NoSuchOffcut() {
  return (
    <Frame title="No such offcut">
      <p>
        This phone knows no offcut at this address. It may have been entered on another phone and
        not have come in yet.
      </p>
      <a class="button main" href="/offcuts">
        All offcuts
      </a>
    </Frame>
  );
}
