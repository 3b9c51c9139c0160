import { offerPairing, openWorkspace, type Role } from "../store/index.ts";
import type { CliDeps } from "./deps.ts";
import { exit, type Exit } from "./exit.ts";
import { outputOn } from "./output.ts";
import { fail, withStore } from "./trial.ts";

export interface WorkspaceOptions {
  readonly data?: string;
  readonly address?: string;
}

/** `workspace create NAME` */
export function createWorkspace(deps: CliDeps, name: string, options: WorkspaceOptions) {
  return withStore(deps, options.data, async (store): Promise<Exit> => {
    const called = name.trim();
    if (called === "" || called.length > 80) return fail(deps, "a name has 1 to 80 characters.");
    const { workspace, ...made } = await openWorkspace(store.access, called, new Date(deps.now()));
    const output = outputOn(deps.stdout);
    await output.write(`Workspace ${workspace.name} has the id ${workspace.id}\n`);
    await output.write(codeWords(made, "owner", options.address));
    return exit.done;
  });
}

/** `workspace list` */
export function listWorkspaces(deps: CliDeps, options: WorkspaceOptions) {
  return withStore(deps, options.data, async (store) => {
    const output = outputOn(deps.stdout);
    for (const { id, name } of await store.access.workspaces()) {
      const working = (await store.access.devices(id)).filter(({ revoked }) => revoked === null);
      await output.write(`${id}  ${name}  ${working.length} devices\n`);
    }
    return exit.done;
  });
}

/** `workspace pair ID` */
export function pairDevice(
  deps: CliDeps,
  id: string,
  { role, data, address }: WorkspaceOptions & { readonly role: Role },
) {
  return withStore(deps, data, async (store): Promise<Exit> => {
    const workspace = await store.access.workspace(id);
    if (workspace === undefined) {
      return fail(deps, `there is no workspace ${id}. See: coldproof workspace list`);
    }
    const made = await offerPairing(
      store.access,
      { workspace: id, role, name: "" },
      new Date(deps.now()),
    );
    await outputOn(deps.stdout).write(codeWords(made, role, address));
    return exit.done;
  });
}

function codeWords(
  { code, expires }: { readonly code: string; readonly expires: string },
  role: Role,
  address: string | undefined,
): string {
  const link = address === undefined ? "" : `${address.replace(/\/$/, "")}/#/pair/${code}\n`;
  return `Pairing code ${code} makes one device ${role}, until ${expires}\n${link}`;
}
