import Database from "better-sqlite3";

/** Changes a log's file behind the store's back, as a faulty disk or a curious hand would. */
export function damage(file: string, query: string): void {
  const sqlite = new Database(file);
  sqlite.exec(query);
  sqlite.close();
}
