import { useEffect, useState } from "preact/hooks";
import { Segments } from "../fields/segments.tsx";
import type { Role } from "../shell/access.ts";
import { type Device, type Offer, offerPairing, type Refusal, type Told } from "./devices.ts";
import { QrCode } from "./qr-code.tsx";
import { roleWords } from "./roles.ts";

interface Props {
  readonly devices: readonly Device[];
  /** The other device may have come in: looks at the list again. */
  readonly onLook: () => void;
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

/** How often the list is asked for while a code is shown, ms. */
const looksEvery = 2000;

/** Lets one more device in: its role, then a code for its camera until one came in or the code ran out. */
export function OfferPairing({ devices, onLook }: Props) {
  const [role, setRole] = useState<Role>("tester");
  const [offer, setOffer] = useState<Told<Offer>>();
  const [before, setBefore] = useState<ReadonlySet<string>>(new Set());
  const [over, setOver] = useState<string>();
  const show = (): void => {
    setOver(undefined);
    setBefore(new Set(devices.map(({ id }) => id)));
    void offerPairing(role, "").then(setOffer);
  };
  const end = (sentence: string): void => {
    setOffer(undefined);
    setOver(sentence);
  };
  useEffect(() => {
    if (offer?.kind !== "told") return;
    const { expires } = offer.value;
    const looking = setInterval(() => {
      if (Date.parse(expires) <= Date.now()) end("That code ran out. Show a new one.");
      else onLook();
    }, looksEvery);
    return () => {
      clearInterval(looking);
    };
  }, [offer]);
  const came = devices.find(({ id }) => !before.has(id));
  useEffect(() => {
    if (offer?.kind === "told" && came) end(`${came.name} is paired.`);
  }, [came?.id]);
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
        <button type="button" class="button button-main" onClick={show}>
          Show the code
        </button>
      )}
      <p role="status">{over}</p>
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
        <p class="pairing-address">{url.replace(/#.*$/, "")}</p>
      </div>
    </div>
  );
}
