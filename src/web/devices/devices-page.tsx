import { useEffect, useState } from "preact/hooks";
import { spokenInstant } from "../forms/instant.ts";
import { access, forgetKey, pairing } from "../shell/access.ts";
import { pathTo } from "../shell/route.ts";
import { TopBar } from "../shell/top-bar.tsx";
import { type Device, readDevices, type Refusal, revoke, type Told } from "./devices.ts";
import { roleWords } from "./roles.ts";
import { OfferPairing } from "./offer-pairing.tsx";

/** Which devices read and write here, and how another one joins. */
export function DevicesPage() {
  const [devices, setDevices] = useState<Told<readonly Device[]>>();
  const look = (): void => {
    void readDevices().then(setDevices);
  };
  useEffect(look, [pairing.value?.key]);
  return (
    <>
      <TopBar title="Devices" />
      <main class="page narrow" id="main">
        <h1 tabIndex={-1}>Devices</h1>
        <ThisDevice />
        {devices?.kind === "refused" && <p class="empty">{refusals[devices.why]}</p>}
        {devices?.kind === "told" && <OfferPairing onPaired={look} />}
        {devices?.kind === "told" && <DeviceList devices={devices.value} onChanged={look} />}
        <p>
          <a class="button" href={pathTo("settings")}>
            Back to the settings
          </a>
        </p>
      </main>
    </>
  );
}

const refusals: Readonly<Record<Refusal, string>> = {
  away: "The server does not answer. The list of devices comes from it; look again when it is back.",
  "last-owner": "The last owner stays. Pair another owner first.",
  "not-allowed": "Only an owner’s device sees the others and lets new ones in.",
  "not-offered":
    "This server serves this machine alone and keeps no list of devices. Start it for the network to pair a phone: npm start -- --lan",
};

function ThisDevice() {
  const { kind, role, workspace, device } = access.value;
  return (
    <section class="sheet">
      <h2>This device</h2>
      {kind === "alone" && <p>The server runs on this machine and asks for no key.</p>}
      {kind === "unknown" && <p>The server has not answered yet.</p>}
      {kind === "paired" && (
        <p>
          Paired as <strong>{device?.name ?? "this device"}</strong>
          {role && `, ${roleWords[role].name.toLowerCase()}: it ${roleWords[role].may}`}
          {workspace !== undefined && ` in the workspace ${workspace}`}.
        </p>
      )}
      {kind === "no-key" && (
        <>
          <p>The server does not know this device. What is here can be read, and stays here.</p>
          <a class="button button-main" href={pathTo("pair")}>
            Pair this device
          </a>
        </>
      )}
      {pairing.value && (
        <button
          type="button"
          class="button"
          onClick={() => {
            void forgetKey();
          }}
        >
          Forget this device’s key
        </button>
      )}
    </section>
  );
}

interface ListProps {
  readonly devices: readonly Device[];
  readonly onChanged: () => void;
}

function DeviceList({ devices, onChanged }: ListProps) {
  const standing = devices.filter(({ revoked }) => revoked === undefined);
  return (
    <section class="sheet">
      <h2>Devices that may come in</h2>
      {standing.length === 0 && <p class="empty">None yet. Pair the first one above.</p>}
      <ul class="rows">
        {standing.map((device) => (
          <DeviceRow key={device.id} device={device} onChanged={onChanged} />
        ))}
      </ul>
    </section>
  );
}

interface RowProps {
  readonly device: Device;
  readonly onChanged: () => void;
}

function DeviceRow({ device, onChanged }: RowProps) {
  const [asking, setAsking] = useState(false);
  const own = device.id === access.value.device?.id;
  const [failure, setFailure] = useState<Refusal>();
  const take = (): void => {
    void revoke(device.id).then((outcome) => {
      setFailure(outcome.kind === "refused" ? outcome.why : undefined);
      setAsking(false);
      onChanged();
    });
  };
  return (
    <li class="device">
      <div>
        <strong>{device.name}</strong>
        {own && <span class="tag">this one</span>}
        <p class="quiet">
          {roleWords[device.role].name} ·{" "}
          {device.lastSeen === undefined
            ? "not seen yet"
            : `last seen ${spokenInstant(device.lastSeen)}`}
        </p>
      </div>
      {asking ? (
        <div class="actions" role="group" aria-label={`Take the key of ${device.name} back?`}>
          <button type="button" class="button button-main" onClick={take}>
            Take its key back
          </button>
          <button
            type="button"
            class="button"
            onClick={() => {
              setAsking(false);
            }}
          >
            Keep it
          </button>
        </div>
      ) : (
        <button
          type="button"
          class="button"
          aria-label={`Revoke ${device.name}`}
          onClick={() => {
            setAsking(true);
          }}
        >
          Revoke
        </button>
      )}
      {failure && (
        <p class="objections" role="alert">
          {refusals[failure]}
        </p>
      )}
    </li>
  );
}
