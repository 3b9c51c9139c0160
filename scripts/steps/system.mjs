// Installing system packages, only where that is the machine's custom and only what is missing.
import { SetUpError, run, say, which } from "./run.mjs";

/**
 * Installs Debian packages.
 *
 * @param packages what to install.
 * @param purpose  ends the sentence "is needed to …".
 * @throws SetUpError with the command to give by hand when this machine does not let us.
 */
export async function aptInstall(packages, purpose) {
  const words = packages.join(" ");
  const byHand = `install ${words} (needed to ${purpose}), then try again. On Debian or Ubuntu:\n  sudo apt-get install ${words}`;
  const prefix = await rootPrefix();
  if (!which("apt-get") || prefix === undefined) throw new SetUpError(byHand);
  say(`installing ${words} with apt-get, to ${purpose}`);
  const env = { DEBIAN_FRONTEND: "noninteractive" };
  const apt = (args) => {
    const [command, ...rest] = [...prefix, "apt-get", "-q", ...args];
    return run(command, rest, { env });
  };
  const install = ["install", "-y", "--no-install-recommends", ...packages];
  // The package lists of a fresh machine are often empty or stale; refresh them first.
  const refreshed = await apt(["update"]);
  const installed = await apt(install);
  if (installed.code !== 0) {
    throw new SetUpError(
      `apt-get could not install ${words}:\n${tail(refreshed.output + installed.output)}\nPlease ${byHand}`,
    );
  }
}

/** Can packages be installed here without a person typing a password? */
export async function canInstall() {
  return which("apt-get") !== undefined && (await rootPrefix()) !== undefined;
}

async function rootPrefix() {
  if (process.getuid?.() === 0) return [];
  if (!which("sudo")) return undefined;
  const allowed = await run("sudo", ["-n", "true"]);
  return allowed.code === 0 ? ["sudo", "-n"] : undefined;
}

export function tail(output, lines = 25) {
  return output.trimEnd().split("\n").slice(-lines).join("\n");
}
