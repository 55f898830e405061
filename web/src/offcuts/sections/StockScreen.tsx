// The offcuts of every form: sheet, or angle, channel and tube, as it is asked for.
import { useState } from 'preact/hooks';
import { OffcutsScreen } from '../OffcutsScreen.tsx';
import { NOTHING, type SectionAsked, sectionAskedIn } from './asked.ts';
import type { AnyForm } from './FormPick.tsx';
import { SectionsScreen } from './SectionsScreen.tsx';

export function StockScreen() {
  const [asked, setAsked] = useState<SectionAsked | null>(() => sectionAskedIn(location.search));
  const pick = (form: AnyForm): void => {
    if (form === 'sheet') {
      setAsked(null);
      return;
    }
    // a leg says nothing of a tube; what is asked of the metal, and what for, goes on
    const { metal, length, structure, part } = asked ?? askedOfSheet();
    setAsked({ ...NOTHING, metal, length, structure, part, form });
  };
  if (!asked) return <OffcutsScreen onForm={pick} />;
  const change = (part: Partial<SectionAsked>): void =>
    setAsked((last) => (last ? { ...last, ...part } : last));
  return <SectionsScreen asked={asked} onChange={change} onForm={pick} />;
}

function askedOfSheet(): Pick<SectionAsked, 'metal' | 'length' | 'structure' | 'part'> {
  const query = new URLSearchParams(location.search);
  const structure = query.get('structure') !== 'no';
  return { metal: '', length: '', structure, part: query.get('for') ?? '' };
}
