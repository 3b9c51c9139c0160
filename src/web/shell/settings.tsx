import { Segments } from "../fields/segments.tsx";
import { prefer, preferences } from "./preferences.ts";
import { pathTo } from "./route.ts";
import { TopBar } from "./top-bar.tsx";

/** What this device prefers. None of it is part of a trial. */
export const Settings = () => (
  <>
    <TopBar title="Settings" />
    <main class="page narrow">
      <h1 tabIndex={-1}>Settings of this device</h1>
      <Units />
      <DeviceName />
      <section class="sheet">
        <h2>Devices</h2>
        <p class="quiet">Pair a phone, see who is in, take a lost phone’s key back.</p>
        <a class="button" href={pathTo("devices")}>
          Devices
        </a>
      </section>
      <p>
        <a class="button" href={pathTo()}>
          Back to all trials
        </a>
      </p>
    </main>
  </>
);

const Units = () => (
  <section class="sheet">
    <h2 id="units">Units offered first</h2>
    <p class="quiet">
      Each field still takes any unit, and remembers the one you chose there last. Changing this
      forgets those choices.
    </p>
    <Segments
      name="system"
      label="Units offered first"
      value={preferences.value.system}
      options={[
        { value: "us", label: "US customary", hint: "psig, °F, lb, micron" },
        { value: "si", label: "SI", hint: "bar, °C, kg, Pa" },
      ]}
      onChange={(value) => {
        prefer({ system: value === "us" ? "us" : "si", units: {} });
      }}
    />
  </section>
);

const DeviceName = () => (
  <section class="sheet">
    <div class="field">
      <label class="field-label" for="device">
        Name of this device in the log
      </label>
      <p class="field-hint">
        It stands beside every entry made here, so that two devices can be told apart.
      </p>
      <input
        id="device"
        class="text"
        type="text"
        maxLength={80}
        value={preferences.value.device}
        onChange={(event) => {
          const name = event.currentTarget.value.trim();
          if (name !== "") prefer({ device: name });
        }}
      />
    </div>
  </section>
);
