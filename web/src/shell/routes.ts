// Every screen by the first word of its path. `one` takes the id after it: /part/ID.
// A screen that is not needed at the bench every minute can be loaded when it is first opened;
// the service worker has it on the phone all the same.
import type { ComponentType } from 'preact';
import { BenchScreen } from '../bench/BenchScreen.tsx';
import { OffcutScreen } from '../offcuts/OffcutScreen.tsx';
import { StockScreen } from '../offcuts/sections/StockScreen.tsx';
import { LineScreen } from '../parts/LineScreen.tsx';
import { NewPartScreen } from '../parts/NewPart.tsx';
import { PartScreen } from '../parts/PartScreen.tsx';
import { PartsScreen } from '../parts/PartsScreen.tsx';
import { later } from './later.tsx';

export type ListScreen = ComponentType;
export type OneScreen = ComponentType<{ id: string }>;

export const LISTS: Record<string, ListScreen> = {
  offcuts: StockScreen,
  'new-part': NewPartScreen,
  places: later(async () => (await import('../places/PlacesScreen.tsx')).PlacesScreen),
  'new-place': later(async () => (await import('../places/NewPlace.tsx')).NewPlaceScreen),
  'cut-plan': later(async () => (await import('../offcuts/cutplan/PlanScreen.tsx')).PlanScreen),
  'cut-list': later(
    async () => (await import('../offcuts/sections/CutListScreen.tsx')).CutListScreen,
  ),
  find: later(async () => (await import('../places/Finder.tsx')).FindScreen),
  run: later(async () => (await import('../runs/RunScreen.tsx')).RunScreen),
  parts: PartsScreen,
  reckoner: later(async () => (await import('../reckoner/ReckonerScreen.tsx')).ReckonerScreen),
  scan: later(async () => (await import('../tags/ScanScreen.tsx')).ScanScreen),
  tags: later(async () => (await import('../tags/PrintScreen.tsx')).PrintScreen),
  wanted: later(async () => (await import('../wanted/WantedScreen.tsx')).WantedScreen),
  workshop: later(async () => (await import('../workshop/ThisWorkshop.tsx')).ThisWorkshop),
};

export const ONES: Record<string, OneScreen> = {
  offcut: OffcutScreen,
  cut: later(async () => (await import('../offcuts/cutting/CutScreen.tsx')).CutScreen),
  finding: later(async () => (await import('../findings/FindingScreen.tsx')).FindingScreen),
  line: LineScreen,
  part: PartScreen,
  reckoner: later(async () => (await import('../reckoner/SumScreen.tsx')).SumScreen),
  wanted: later(async () => (await import('../wanted/WantedPiece.tsx')).WantedPiece),
  place: later(async () => (await import('../places/PlaceScreen.tsx')).PlaceScreen),
  attach: later(async () => (await import('../tags/AttachScreen.tsx')).AttachScreen),
  tag: later(async () => (await import('../tags/ScanScreen.tsx')).TagScreen),
  retag: later(async () => (await import('../tags/RetagScreen.tsx')).RetagScreen),
};

export const FIRST: ListScreen = BenchScreen;
