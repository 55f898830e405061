// The photos of a part or an offcut, and taking another.
import { useEffect, useRef, useState } from 'preact/hooks';
import { sayKept } from '../shell/feedback.tsx';
import { useKeeping } from '../shell/useKeeping.ts';
import type { KeptPhoto } from '../store/database.ts';
import { NoRoom } from '../store/outbox.ts';
import type { State } from '../twins/fold.ts';
import { recordWithPhotos } from './keeping.ts';
import { usePhoto } from './shown.ts';
import { TakePhoto } from './TakePhoto.tsx';
import './photos.css';

type Photo = State['photos'][number];

// A thing that is gone keeps its photos; none are added to it.
export function Photos({ id, state }: { id: string; state: State }) {
  const [large, setLarge] = useState<Photo | null>(null);
  const [problem, setProblem] = useState('');
  const [removal, setRemoval] = useState<string | null>(null);
  const keeping = useKeeping();
  const keep = async (photo: KeptPhoto): Promise<void> => {
    setProblem('');
    setRemoval(null);
    try {
      const kept = await recordWithPhotos([], id, [photo]);
      if (kept.notKept) setProblem(kept.notKept);
      else sayKept('Photo kept');
    } catch (failed) {
      if (!(failed instanceof NoRoom)) throw failed;
      setProblem(failed.message);
    }
  };
  const remove = async ({ photo }: Photo): Promise<void> => {
    const draft = { kind: 'photo.removed.v1', subject: id, body: { photo } };
    const kept = await keeping.keep([draft], '');
    setLarge(null);
    setRemoval(kept?.[0] ?? null);
  };
  const putBack = async (event: string): Promise<void> => {
    const draft = { kind: 'event.withdrawn.v1', subject: id, body: { event } };
    if (await keeping.keep([draft], '')) setRemoval(null);
  };
  return (
    <section aria-label="Photos" class="photos">
      <h2>Photos</h2>
      {!state.photos.length && <p>None yet.</p>}
      <ul class="photo-row">
        {state.photos.map((photo, at) => (
          <li key={photo.photo}>
            <button type="button" class="photo-small" onClick={() => setLarge(photo)}>
              <Picture digest={photo.photo} words={`photo ${at + 1}, ${dayOf(photo.at)}`} />
            </button>
          </li>
        ))}
      </ul>
      {removal && (
        <p class="note">
          The photo is no longer shown here; it stays in the record.{' '}
          <button type="button" onClick={() => putBack(removal)}>
            Show it again
          </button>
        </p>
      )}
      {(problem || keeping.problem) && (
        <p class="problem" role="alert">
          {problem || keeping.problem}
        </p>
      )}
      {!state.retired && <TakePhoto onTaken={keep} />}
      {large && <Large photo={large} onClose={() => setLarge(null)} onRemove={remove} />}
    </section>
  );
}

export function dayOf(at: number): string {
  return new Date(at).toLocaleDateString('en-GB', {
    day: 'numeric',
    month: 'long',
    year: 'numeric',
  });
}

export function Picture({ digest, words }: { digest: string; words: string }) {
  const shown = usePhoto(digest);
  if (shown.is === 'here') return <img src={shown.address} alt={words} decoding="async" />;
  return <span class="photo-absent">{shown.is === 'absent' ? shown.sentence : words}</span>;
}

function Large({
  photo,
  onClose,
  onRemove,
}: {
  photo: Photo;
  onClose: () => void;
  onRemove: (photo: Photo) => void;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} class="photo-large" aria-label="Photo" onClose={onClose}>
      <Picture digest={photo.photo} words={`photo of ${dayOf(photo.at)}`} />
      <p>{photo.caption ? `${photo.caption}, ${dayOf(photo.at)}` : dayOf(photo.at)}</p>
      <div class="photo-keys">
        <button type="button" onClick={() => onRemove(photo)}>
          No longer show it
        </button>
        <button type="button" class="main" onClick={onClose}>
          Close
        </button>
      </div>
    </dialog>
  );
}
