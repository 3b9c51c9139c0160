/** Shown instead of the app when the browser gives it no storage: nothing typed would survive. */
export function CannotKeep({ reason }: { readonly reason: string }) {
  return (
    <main class="page">
      <h1>This browser keeps nothing</h1>
      <p>
        Coldproof writes every entry to this device before it counts as saved, and the browser does
        not allow it here. Leave private mode, or open the page in another browser.
      </p>
      <p class="quiet">The browser says: {reason}</p>
    </main>
  );
}
