// Every place as a tree, with what lies in each, and one field that says where a thing is.
import { Frame } from '../shell/Frame.tsx';
import { openedPhone, version } from '../shell/state.ts';
import { rows } from '../shell/things.ts';
import type { Row } from '../store/rows.ts';
import { Finder } from './Finder.tsx';
import './places.css';
import { type Branch, below, branches, lying } from './tree.ts';
import { thingsWords } from './words.ts';

export function PlacesScreen() {
  version.value;
  const places = rows('place');
  if (!places.length) return <Empty />;
  const things = lying(openedPhone().rows.values());
  const tree = branches(places);
  const homeless = (things.get('') ?? []).filter((one) => one.sort !== 'place');
  return (
    <Frame title="Places">
      <Finder>
        <ul class="plain tree">
          {tree.map((branch) => (
            <Place branch={branch} things={things} key={branch.place.id} />
          ))}
          {homeless.length > 0 && (
            <li>
              <a href="/place/nowhere">
                <b>Nowhere known</b>
                <span class="faint">{thingsWords(homeless)}</span>
              </a>
            </li>
          )}
        </ul>
        <div class="place-ways">
          <a class="button main" href="/run?put">
            Put things in a place
          </a>
          <a class="button leave" href="/new-place">
            Enter a place
          </a>
        </div>
      </Finder>
    </Frame>
  );
}

function Place({ branch, things }: { branch: Branch; things: Map<string, Row[]> }) {
  const { place, depth, loop } = branch;
  const inside = below(place.id, things).filter((one) => one.sort !== 'place');
  return (
    <li class={`depth-${Math.min(depth, 5)}`}>
      <a href={`/place/${place.id}`}>
        <b>{place.name}</b>
        <span class="faint">{inside.length ? thingsWords(inside) : 'empty'}</span>
        {loop && <strong>Lies in itself, by way of others: say where it is.</strong>}
      </a>
    </li>
  );
}

function Empty() {
  return (
    <Frame title="Places">
      <p>No place is entered yet.</p>
      <p>
        Begin with the room, then what stands in it: racks, shelves, boxes. A box that moves takes
        what is in it along, and so does an assembly. Scan a blank tag to enter a place with its
        tag, or enter it now and tag it later.
      </p>
      <a class="button main" href="/new-place">
        Enter a place
      </a>
    </Frame>
  );
}
