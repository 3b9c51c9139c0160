import { givenFile, takeFile } from "./given-file.ts";

/** Takes a trial file, a log table or a report that was saved here or elsewhere. */
export function ImportTrial() {
  const given = givenFile.value;
  return (
    <div class="way">
      <label class="button file-button">
        Import a trial or check a report
        <input
          type="file"
          accept="application/json,.json,text/html,.html,text/csv,.csv"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            event.currentTarget.value = "";
            if (file) void takeFile(file);
          }}
        />
      </label>
      {given.kind === "unusable" && (
        <p class="field-issue" role="alert">
          {given.sentence}
        </p>
      )}
    </div>
  );
}
