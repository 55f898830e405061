// The line that offers a new version, on every screen but never in the middle of something.
import { inTheMiddle } from './middle.ts';
import { unsent } from './state.ts';
import { restartNow, updateWaiting } from './update.ts';

export function UpdateNote() {
  if (!updateWaiting.value || inTheMiddle.value) return null;
  return (
    <div class="note new-version" role="status">
      <p>
        A new version is on this device. {unsent.value ? 'What is not sent yet stays here.' : ''}
      </p>
      <button type="button" onClick={restartNow}>
        Restart now
      </button>
    </div>
  );
}
