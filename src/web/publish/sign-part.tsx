import { useEffect } from "preact/hooks";
import { publicKeyOf } from "../../report/index.ts";
import { deviceKey, makeKey, recallKey } from "./device-key.ts";

/** A key made on this device, so that readers know which reports are from the same hand. */
export function SignPart() {
  useEffect(() => {
    void recallKey();
  }, []);
  const key = deviceKey.value;
  return (
    <details class="publish-part">
      <summary>{key === undefined ? "Sign reports with a key" : "Reports are signed"}</summary>
      <p>
        A signature shows that two reports are from the holder of the same key. It shows a person
        only to those who got the public key from you.
      </p>
      {key === undefined ? (
        <button type="button" class="button" onClick={() => void makeKey()}>
          Make a key on this device
        </button>
      ) : (
        <>
          <p>Public key of this device, to be told to readers:</p>
          <p class="publish-key">
            <code>{publicKeyOf(key)}</code>
          </p>
          <p class="quiet">
            The secret part stays in this browser. It is lost with the browser’s data; old
            signatures stay good.
          </p>
        </>
      )}
    </details>
  );
}
