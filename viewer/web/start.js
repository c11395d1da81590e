// What page and worker begin with: the script that both are made of, and an instance of the program of its compiled
// module, which is compiled once for both.

const script = typeof document === "undefined" ? "" : document.currentScript.textContent;

function startProgram(compiled, options) {
  return new Promise((done, failed) => {
    const instantiateWasm = (imports, receive) => {
      WebAssembly.instantiate(compiled, imports).then(receive).catch(failed);
      return {};
    };
    loadDewtrail({...options, instantiateWasm}).then(done, failed);
  });
}

function callWithNumbers(program, name, numbers) {
  return program.ccall(name, "number", ["array", "number"], [new Uint8Array(numbers.buffer), numbers.length]);
}
