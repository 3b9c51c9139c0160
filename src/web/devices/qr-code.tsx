import { useMemo } from "preact/hooks";
import { encode } from "uqr";

/** A code that another device's camera reads: dark on light in both looks, with the quiet zone it needs. */
export function QrCode({ text, label }: { readonly text: string; readonly label: string }) {
  const { size, path } = useMemo(() => {
    const { data, size: side } = encode(text, { border: 4, ecc: "M" });
    const cells = data.flatMap((row, y) =>
      row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : [])),
    );
    return { size: side, path: cells.join("") };
  }, [text]);
  return (
    <svg
      class="qr"
      role="img"
      aria-label={label}
      viewBox={`0 0 ${size} ${size}`}
      shapeRendering="crispEdges"
    >
      <rect width={size} height={size} class="qr-ground" />
      <path d={path} class="qr-dark" />
    </svg>
  );
}
