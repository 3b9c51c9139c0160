import { hidableNames } from "../../report/index.ts";
import { type Hidable, hidables } from "../../trial/index.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { hidden, hiddenWords, redacting, redaction } from "./leaving.ts";

/** What is hidden before anything leaves this device, with a list of what stands in for what. */
export const RedactPart = () => (
  <details class="publish-part">
    <summary>Hide names, places or words first</summary>
    <p>
      Numbers and verdicts stay the same. What leaves is another log with a seal of its own; it says
      that it was redacted. The log on this device stays as it is.
    </p>
    <fieldset class="publish-choices">
      <legend class="field-label">Replace</legend>
      {hidables.map((one) => (
        <label key={one} class="check">
          <input
            type="checkbox"
            checked={hidden.value.includes(one)}
            onChange={({ currentTarget }) => {
              choose(one, currentTarget.checked);
            }}
          />
          <span>{hidableNames[one]}</span>
        </label>
      ))}
    </fieldset>
    <FieldFrame
      id="hidden-words"
      label="Words to hide"
      hint="Separated by commas, three letters or more each. They go wherever they stand."
      optional
    >
      <input
        id="hidden-words"
        class="text"
        type="text"
        autocomplete="off"
        value={hiddenWords.value}
        aria-describedby="hidden-words-hint"
        onInput={({ currentTarget }) => {
          hiddenWords.value = currentTarget.value;
        }}
      />
    </FieldFrame>
    {redacting.value && <Preview />}
  </details>
);

function choose(one: Hidable, on: boolean): void {
  const rest = hidden.value.filter((other) => other !== one);
  hidden.value = on ? [...rest, one] : rest;
}

function Preview() {
  const done = redaction.value;
  if (done === undefined) {
    return (
      <p class="field-issue" role="alert">
        This log holds entries that this version cannot read, so they cannot be redacted. Nothing
        leaves while something is to be hidden.
      </p>
    );
  }
  return (
    <>
      {done.kept.map(({ word, where }) => (
        <p key={`${word} ${where}`} class="field-issue" role="alert">
          “{word}” stays in {where}: a figure or a verdict is read from it.
        </p>
      ))}
      <div class="table-room" role="region" aria-label="What is replaced" tabIndex={0}>
        <table class="table">
          <caption>
            {done.replaced.length === 0 ? "Nothing in this log is replaced" : "What is replaced"}
          </caption>
          <thead>
            <tr>
              <th scope="col">Now</th>
              <th scope="col">Then</th>
              <th scope="col">Times</th>
            </tr>
          </thead>
          <tbody>
            {done.replaced.map(({ what, was, now, times }) => (
              <tr key={`${what} ${was}`}>
                <th scope="row">{was}</th>
                <td>{now}</td>
                <td class="figure">{times}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}
