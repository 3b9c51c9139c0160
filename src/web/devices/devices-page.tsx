import { useEffect, useState } from "preact/hooks";
import { access, forgetKey, pairing } from "../shell/access.ts";
import { pathTo } from "../shell/route.ts";
import { TopBar } from "../shell/top-bar.tsx";
import { DeviceRow } from "./device-row.tsx";
import { type Device, readDevices, type Told } from "./devices.ts";
import { OfferPairing } from "./offer-pairing.tsx";
import { refusals, roleWords } from "./roles.ts";

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
        {devices?.kind === "told" && <OfferPairing devices={devices.value} onLook={look} />}
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
          {workspace !== undefined && `, workspace ${workspace}`}.{" "}
          {role && `${roleWords[role].name}: it ${roleWords[role].may}.`}
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
