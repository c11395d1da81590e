// What the program keeps: its files under /keep, written through to the browser's storage, whole, before anything
// later is shown. Two pages at once: the one that finds newer files than its own takes over first what is new in them,
// into each pupil's memory only their own.

const keepFolder = "/keep", otherFolder = "/other", memoryFile = "memory.sqlite";
const folderOf = path => path.slice(0, path.lastIndexOf("/")), fileOf = path => path.slice(path.lastIndexOf("/") + 1);

class Keep {
  constructor(program, tell) {
    this.program = program;
    this.tell = tell;
    this.generation = 0;
    this.seen = "";
    this.refused = false;
  }

  // The files of before, into the program's memory. `storage` is the browser's, or undefined.
  async open(storage) {
    const files = this.program.FS;
    files.ignorePermissions = true;  // there is one user, and no umask to make files with
    files.mkdir(otherFolder);
    files.mkdir(keepFolder);
    try {
      this.database = await new Promise((done, failed) => {
        const request = storage.open("dewtrail", 1);
        request.onupgradeneeded = () => request.result.createObjectStore("files");
        request.onsuccess = () => done(request.result);
        request.onerror = () => failed(request.error);
        request.onblocked = () => failed(new Error("blocked"));
      });
      const kept = await new Promise((done, failed) => {
        const request = this.database.transaction("files").objectStore("files").get("keep");
        request.onsuccess = () => done(request.result);
        request.onerror = () => failed(request.error);
      });
      if (kept) this.restore(kept);
    } catch (error) {
      this.refused = true;
    }
    this.seen = this.signature();
  }

  restore(kept) {
    this.generation = kept.generation;
    for (const [path, bytes] of Object.entries(kept.files)) {
      this.makeFolders(path);
      this.program.FS.writeFile(path, bytes);
    }
  }

  makeFolders(path) {
    const parts = path.split("/").slice(1, -1);
    for (let n = 1; n <= parts.length; ++n) {
      const folder = "/" + parts.slice(0, n).join("/");
      if (!this.program.FS.analyzePath(folder).exists) this.program.FS.mkdir(folder);
    }
  }

  *paths(folder = keepFolder) {
    const files = this.program.FS;
    for (const name of files.readdir(folder)) {
      if (name === "." || name === ".." || name.startsWith(".dewtrail-")) continue;
      const path = folder + "/" + name, state = files.stat(path);
      if (files.isDir(state.mode)) yield* this.paths(path);
      else if (!name.endsWith("-journal")) yield [path, state];
    }
  }

  signature() {
    let text = "";
    for (const [path, state] of this.paths()) text += `${path} ${state.size} ${+state.mtime}\n`;
    return text;
  }

  changed() {
    return !this.refused && this.signature() !== this.seen;
  }

  contents() {
    const files = {};
    for (const [path] of this.paths()) files[path] = this.program.FS.readFile(path);
    return files;
  }

  // Resolves when it is stored; or when it is known, and told once, that this browser does not.
  async save() {
    try {
      await new Promise((done, failed) => {
        const transaction = this.database.transaction("files", "readwrite");
        const store = transaction.objectStore("files");
        transaction.oncomplete = done;
        transaction.onerror = transaction.onabort = () => failed(transaction.error);
        const request = store.get("keep");
        request.onsuccess = () => {
          const kept = request.result;
          if (kept && kept.generation !== this.generation && !this.takeOver(kept)) return transaction.abort();
          this.generation = (kept ? kept.generation : 0) + 1;
          this.seen = this.signature();
          store.put({generation: this.generation, files: this.contents()}, "keep");
        };
      });
    } catch (error) {
      this.refused = true;
      this.tellRefused();
    }
  }

  tellRefused() {
    this.tell(`${this.why ?? "This browser keeps nothing for this page."} Practise on; save your answers under ? before you close it.`);
  }

  // False where a memory cannot be read: it is not to be written over.
  takeOver(kept) {
    for (const [path, bytes] of Object.entries(kept.files)) {
      if (!this.program.FS.analyzePath(path).exists) {
        this.makeFolders(path);
        this.program.FS.writeFile(path, bytes);
      } else if (fileOf(path) === memoryFile) {
        const words = this.add(memoryFile, bytes, folderOf(path));
        if (this.program.ccall("dewtrail_failed", "number", [], [])) {
          this.why = `What another page keeps here is left as it is: ${words}`;
          return false;
        }
      }
    }
    return true;
  }

  memoryFolder() {
    return this.program.ccall("dewtrail_memory", "string", [], []);
  }
  // What is remembered of whoever the page is; undefined where there is nothing yet.
  memory() {
    return this.contents()[this.memoryFolder() + "/" + memoryFile];
  }

  // A file of answers or a memory, into the memory of that folder; what came of it, in words.
  add(name, bytes, into = this.memoryFolder()) {
    // A memory that was written beside a log says so in two bytes; whole, as it is here, it needs none.
    if (/\.sqlite$/.test(name) && bytes.length > 100) {
      bytes = bytes.slice();
      bytes[18] = bytes[19] = 1;
    }
    const path = otherFolder + "/" + name;
    this.program.FS.writeFile(path, bytes);
    try {
      return this.program.ccall("dewtrail_add", "string", ["string", "string"], [into, path]);
    } finally {
      this.program.FS.unlink(path);
    }
  }
}
