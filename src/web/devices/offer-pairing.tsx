import { useEffect, useState } from "preact/hooks";
import { Segments } from "../fields/segments.tsx";
import type { Role } from "../shell/access.ts";
import { type Offer, offerPairing, type Refusal, type Told } from "./devices.ts";
import { QrCode } from "./qr-code.tsx";
import { roleWords } from "./roles.ts";

interface Props {
  /** The other device may have come in. */
  readonly onPaired: () => void;
}

const roles = (["tester", "viewer", "owner"] as const).map((role) => ({
  value: role,
  label: roleWords[role].name,
  hint: roleWords[role].may,
}));

const words: Readonly<Record<Refusal, string>> = {
  away: "The server does not answer. Try again when it is back.",
  "not-allowed": "Only an owner’s device lets new ones in.",
  "last-owner": "The server refuses it.",
  "not-offered": "This server pairs no devices.",
};

/** Lets one more device in: its role, then a code for its camera. */
export function OfferPairing({ onPaired }: Props) {
  const [role, setRole] = useState<Role>("tester");
  const [offer, setOffer] = useState<Told<Offer>>();
  useEffect(() => {
    if (offer?.kind !== "told") return;
    const looking = setInterval(onPaired, 5000);
    return () => {
      clearInterval(looking);
    };
  }, [offer]);
  return (
    <section class="sheet">
      <h2>Pair another device</h2>
      <Segments
        name="role"
        label="What it may do"
        value={role}
        options={roles}
        onChange={(value) => {
          setRole(value as Role);
          setOffer(undefined);
        }}
      />
      {offer?.kind === "told" ? (
        <Shown offer={offer.value} />
      ) : (
        <button
          type="button"
          class="button button-main"
          onClick={() => {
            void offerPairing(role, "").then(setOffer);
          }}
        >
          Show the code
        </button>
      )}
      {offer?.kind === "refused" && (
        <p class="objections" role="alert">
          {words[offer.why]}
        </p>
      )}
    </section>
  );
}

function Shown({ offer: { code, expires, url } }: { readonly offer: Offer }) {
  const time = new Date(expires).toLocaleTimeString("en-GB", {
    hour: "2-digit",
    minute: "2-digit",
  });
  return (
    <div class="pairing">
      <QrCode text={url} label="Code that opens the app on the other device and pairs it" />
      <div>
        <p>Point the other device’s camera at it. It opens one device, once, until {time}.</p>
        <p>Or open the app there, choose “Pair this device” and type:</p>
        <p class="pairing-code figure">{code}</p>
        <p class="quiet">{url.replace(/#.*$/, "")}</p>
      </div>
    </div>
  );
}
