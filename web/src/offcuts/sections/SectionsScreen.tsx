// Looking for a length of angle, channel or tube: what is wanted above, what serves below.
import { useEffect, useMemo } from 'preact/hooks';
import { Frame } from '../../shell/Frame.tsx';
import { openedPhone } from '../../shell/state.ts';
import { row } from '../../shell/things.ts';
import { shopIn } from '../piece.ts';
import { NearMisses } from '../Results.tsx';
import { allowancesIn } from './allowances.ts';
import { NOTHING, type SectionAsked, sectionAddress, understandSection } from './asked.ts';
import { type AnyForm, FormPick } from './FormPick.tsx';
import { SawingWords } from './SawingWords.tsx';
import { SectionAskedForm } from './SectionAskedForm.tsx';
import { SectionResults } from './SectionResults.tsx';
import { sawOf } from './saw.ts';
import { type SectionFound, searchSections } from './search.ts';
import { useOffcuts } from './stock.ts';
import '../offcuts.css';
import './sections.css';

interface Props {
  asked: SectionAsked;
  onChange: (change: Partial<SectionAsked>) => void;
  onForm: (form: AnyForm) => void;
}

export function SectionsScreen({ asked, onChange, onForm }: Props) {
  const { unit, sawing } = openedPhone().identity;
  const pieces = useOffcuts();
  const allowances = allowancesIn(unit, sawing);
  const { want, problems } = understandSection(asked, unit);
  const shop = shopIn(unit, asked.form);
  const key = JSON.stringify([want, allowances]);
  const found = useMemo(() => searchSections(want, pieces, shop, sawOf(allowances)), [key, pieces]);
  const part = row(asked.part);
  useAddress(asked);
  return (
    <Frame title="Offcuts">
      {part && (
        <p class="note">
          A piece for <a href={`/part/${part.id}`}>{part.name}</a>.
        </p>
      )}
      <FormPick value={asked.form} onChange={onForm} />
      <SectionAskedForm asked={asked} problems={problems} unit={unit} onChange={onChange}>
        <p class="count" aria-live="polite">
          {countWords(found, asked.form)}
        </p>
      </SectionAskedForm>
      <p class="ways">
        <a class="button" href="/offcut/new">
          Enter an offcut
        </a>
        <a class="button" href={`/cut-list${sectionAddress(asked).replace('/offcuts', '')}`}>
          Cut several lengths
        </a>
        {sectionAddress(asked) !== sectionAddress({ ...NOTHING, form: asked.form }) && (
          <button type="button" onClick={() => onChange(NOTHING)}>
            Ask nothing, show all
          </button>
        )}
      </p>
      <SectionResults found={found} unit={unit} part={want.wanted_for} key={key} />
      {want.length !== null && <SawingWords allowances={allowances} />}
      {found.near.length > 0 && <h2>Near misses</h2>}
      <NearMisses near={found.near} />
      {found.more_near > 0 && <p>{found.more_near} more come near.</p>}
    </Frame>
  );
}

function countWords(found: SectionFound, form: string): string {
  const [serve, near] = [
    found.serves.length + found.more_serve,
    found.near.length + found.more_near,
  ];
  if (!found.searched) return `There is no ${form} yet.`;
  const first = serve ? `${serve} ${serve === 1 ? 'serves' : 'serve'}.` : 'None serves.';
  if (near) return `${first} ${near} ${near === 1 ? 'comes' : 'come'} near.`;
  return serve ? first : `${first} None of the ${found.searched} comes near.`;
}

/** Keeps the question in the address, so that "back" from an offcut finds it as it was. */
function useAddress(asked: SectionAsked): void {
  useEffect(() => {
    const to = sectionAddress(asked);
    const keep = (): void => {
      const here = location.pathname + location.search;
      if (location.pathname === '/offcuts' && here !== to) history.replaceState(null, '', to);
    };
    const later = setTimeout(keep, 350);
    addEventListener('click', keep, true); // but before a link leads away
    return () => {
      clearTimeout(later);
      removeEventListener('click', keep, true);
    };
  }, [asked]);
}
