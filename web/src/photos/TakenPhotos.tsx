// Photos taken while something is being entered: kept together with it, not before.
import { useEffect, useState } from 'preact/hooks';
import type { KeptPhoto } from '../store/database.ts';
import { TakePhoto } from './TakePhoto.tsx';

export function TakenPhotos({
  photos,
  onChange,
}: {
  photos: KeptPhoto[];
  onChange: (change: (last: KeptPhoto[]) => KeptPhoto[]) => void;
}) {
  return (
    <div class="field photos">
      Photo
      <small>may be left out</small>
      {photos.length > 0 && (
        <ul class="photo-row">
          {photos.map((photo) => (
            <li key={photo.digest} class="photo-taken">
              <Small photo={photo} />
              <button
                type="button"
                onClick={() => onChange((last) => last.filter((one) => one !== photo))}
              >
                Leave out
              </button>
            </li>
          ))}
        </ul>
      )}
      <TakePhoto
        onTaken={(photo) =>
          onChange((last) =>
            last.some((one) => one.digest === photo.digest) ? last : [...last, photo],
          )
        }
      />
    </div>
  );
}

function Small({ photo }: { photo: KeptPhoto }) {
  const [address, setAddress] = useState('');
  useEffect(() => {
    const made = URL.createObjectURL(photo.bytes);
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [photo]);
  return address ? <img src={address} alt="as it will be kept" /> : null;
}
