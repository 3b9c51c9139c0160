import { useEffect, useRef, useState } from "preact/hooks";
import { spokenInstant } from "../forms/instant.ts";
import { access } from "../shell/access.ts";
import { type Device, type Refusal, revoke } from "./devices.ts";
import { refusals, roleWords } from "./roles.ts";

interface Props {
  readonly device: Device;
  readonly onChanged: () => void;
}

/** One device that may come in, and its way out. */
export function DeviceRow({ device, onChanged }: Props) {
  const [asking, setAsking] = useState(false);
  const [failure, setFailure] = useState<Refusal>();
  const own = device.id === access.value.device?.id;
  const revokeButton = useRef<HTMLButtonElement>(null);
  const keep = (): void => {
    setAsking(false);
    // The button comes back with the next paint; the keyboard goes on from it.
    requestAnimationFrame(() => revokeButton.current?.focus());
  };
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
          {roleWords[device.role].name}
          {device.created !== undefined && ` · paired ${spokenInstant(device.created)}`}
        </p>
      </div>
      {asking ? (
        <Question name={device.name} own={own} onTake={take} onKeep={keep} />
      ) : (
        <button
          ref={revokeButton}
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

interface QuestionProps {
  readonly name: string;
  readonly own: boolean;
  readonly onTake: () => void;
  readonly onKeep: () => void;
}

/** Asked before a key is taken back; the harmless answer has the keyboard, Escape gives it. */
function Question({ name, own, onTake, onKeep }: QuestionProps) {
  const harmless = useRef<HTMLButtonElement>(null);
  useEffect(() => harmless.current?.focus(), []);
  return (
    <div
      class="device-question"
      role="group"
      aria-label={`Take the key of ${name} back?`}
      onKeyDown={({ key }) => {
        if (key === "Escape") onKeep();
      }}
    >
      <p>
        {own ? "This device" : "It"} can no longer read or write on the server. What it wrote stays.
      </p>
      <button type="button" class="button button-danger" onClick={onTake}>
        Take its key back
      </button>
      <button ref={harmless} type="button" class="button" onClick={onKeep}>
        Keep it
      </button>
    </div>
  );
}
