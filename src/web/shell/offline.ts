import { signal } from "@preact/signals";

/** A newer app is downloaded and waits; it takes over when the user says so, never in mid-work. */
export const updateWaiting = signal<ServiceWorker | undefined>(undefined);

/** Lets the app open without a network. A browser that cannot do it still runs the app online. */
export function registerOffline(): void {
  if (!("serviceWorker" in navigator)) return;
  navigator.serviceWorker.register("/sw.js").then(watch, () => undefined);
  let reloading = false;
  const hadOne = navigator.serviceWorker.controller !== null;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (reloading || !hadOne) return;
    reloading = true;
    location.reload();
  });
}

function watch(registration: ServiceWorkerRegistration): void {
  const look = (): void => {
    if (registration.waiting && navigator.serviceWorker.controller) {
      updateWaiting.value = registration.waiting;
    }
  };
  look();
  registration.addEventListener("updatefound", () => {
    registration.installing?.addEventListener("statechange", look);
  });
}

export const takeUpdate = (): void => {
  updateWaiting.value?.postMessage("take-over");
};
