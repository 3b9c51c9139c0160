/** Hands a text to the browser's own way of saving or opening files. */
function address(content: string, type: string): string {
  return URL.createObjectURL(new Blob([content], { type }));
}

export function saveFile(name: string, content: string, type: string): void {
  const link = document.createElement("a");
  link.href = address(content, type);
  link.download = name;
  link.click();
  setTimeout(() => {
    URL.revokeObjectURL(link.href);
  }, 60_000);
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
