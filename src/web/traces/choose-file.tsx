import { useState } from "preact/hooks";

interface Props {
  readonly onFile: (fileName: string, content: string) => void;
}

const largest = 4_000_000;

/** Picks or drops a logger's file. UTF-8, with or without its mark; older files in Windows letters too. */
export function ChooseFile({ onFile }: Props) {
  const [over, setOver] = useState(false);
  const [failure, setFailure] = useState<string>();
  const take = async (file: File): Promise<void> => {
    const bytes = await file.arrayBuffer();
    const content = decoded(bytes);
    if (content.length > largest) {
      setFailure("The file is longer than 4 million characters. Cut it into runs and import each.");
      return;
    }
    onFile(file.name, content);
  };
  return (
    <div
      class={over ? "drop is-over" : "drop"}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => {
        setOver(false);
      }}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        const file = event.dataTransfer?.files[0];
        if (file) void take(file);
      }}
    >
      <label class="button button-main file-button">
        Choose the logger’s file
        <input
          type="file"
          accept=".csv,.txt,.tsv,text/csv,text/plain"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            if (file) void take(file);
          }}
        />
      </label>
      <p class="quiet">or drop it here. The file goes into the log as it came; nothing is dropped from it.</p>
      {failure !== undefined && (
        <p class="field-issue" role="alert">
          {failure}
        </p>
      )}
    </div>
  );
}

function decoded(bytes: ArrayBuffer): string {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}
