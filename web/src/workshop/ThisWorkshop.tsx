// All that is about the workshop itself and this device in it, not about parts.
import { Frame } from '../shell/Frame.tsx';
import { openedPhone, people, version } from '../shell/state.ts';
import { AgreedForm } from './AgreedForm.tsx';
import { Devices } from './Devices.tsx';
import { LeftBehind } from './LeftBehind.tsx';
import { Looks } from './Looks.tsx';
import { OnThisDevice } from './OnThisDevice.tsx';
import { SawingForm } from './SawingForm.tsx';
import { Sending } from './Sending.tsx';
import { SetAside } from './SetAside.tsx';
import './workshop.css';

export function ThisWorkshop() {
  return (
    <Frame title="This workshop">
      <div class="this-workshop">
        <Who />
        <Sending />
        <SetAside />
        <LeftBehind />
        <Devices />
        <OnThisDevice />
        <Looks />
        <AgreedForm />
        <SawingForm />
      </div>
    </Frame>
  );
}

export function myName(): string {
  const { identity } = openedPhone();
  return people.value[identity.person] ?? identity.person_name ?? 'not known by name yet';
}

function Who() {
  version.value;
  const { identity } = openedPhone();
  return (
    <dl class="who">
      <div>
        <dt>Workshop</dt>
        <dd>{identity.name}</dd>
      </div>
      <div>
        <dt>You</dt>
        <dd>{myName()}</dd>
      </div>
      <div>
        <dt>This device</dt>
        <dd>{identity.device_name ?? 'without a name'}</dd>
      </div>
      <div>
        <dt>Address</dt>
        <dd>{location.origin}</dd>
      </div>
    </dl>
  );
}
