// Where what stays is put: back where the offcut lay, or another place.
import { useState } from 'preact/hooks';
import { PlacePicker } from '../../places/PlacePicker.tsx';
import { wayTo } from '../../shell/things.ts';

interface Props {
  value: string;
  onChange: (place: string) => void;
}

export function PlaceOfRest({ value, onChange }: Props) {
  const [chooses, setChooses] = useState(false);
  return (
    <div class="field">
      Where does it go?
      <p class="chosen-place">{value ? wayTo(value).join(', ') : 'Not put away yet.'}</p>
      <button type="button" aria-expanded={chooses} onClick={() => setChooses(!chooses)}>
        {chooses ? 'Leave it so' : value ? 'Choose another place' : 'Choose the place'}
      </button>
      {chooses && (
        <PlacePicker
          nowhere={value !== ''}
          onPick={(place) => {
            onChange(place?.id ?? '');
            setChooses(false);
          }}
        />
      )}
    </div>
  );
}
