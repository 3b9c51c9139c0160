import { readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "../../kill/bundle.ts";

const certFile = join(root, "test/doors/https/only-for-tests.cert.pem");
const keyFile = join(root, "test/doors/https/only-for-tests.key.pem");

/**
 * A certificate for "localhost" and 127.0.0.1 that signed itself, and its key: public, so good for nothing but tests.
 * Made with `openssl req -x509 -newkey ec -pkeyopt ec_paramgen_curve:P-256 -nodes -days 36500`.
 */
export const testCertificate = {
  certFile,
  keyFile,
  cert: readFileSync(certFile, "utf8"),
  key: readFileSync(keyFile, "utf8"),
};
