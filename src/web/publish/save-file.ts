/** Hands something to the browser's own way of saving or opening files. */
export function saveBlob(name: string, blob: Blob): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => {
    URL.revokeObjectURL(link.href);
  }, 60_000);
}

/** The same for a text. */
export function saveFile(name: string, content: string, type: string): void {
  saveBlob(name, new Blob([content], { type }));
}

/** A name that every system takes, from the trial's title. */
export const fileNameOf = (title: string, ending: string): string => {
  const plain = title
    .normalize("NFKD")
    .replace(/[^\w]+/g, "-")
    .replace(/^-|-$/g, "")
    .toLowerCase()
    .slice(0, 60);
  return `${plain === "" ? "trial" : plain}.${ending}`;
};
