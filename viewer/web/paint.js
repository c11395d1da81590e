// What the program has drawn up (drawing.cpp has the other half), and who paints it.

const faces = ["400 @px Book", "italic 400 @px Book", "700 @px Book", "400 @px Sans", "700 @px Sans"];
const utf8 = new TextDecoder();

function setFont(context, face, size) {
  context.font = faces[face].replace("@", size);
}

// The program's ground (`which` 1) or picture (0), as long as it draws no other.
class Drawing {
  static cornerBytes = 12;  // x, y, and a byte each for red, green, blue and opacity

  constructor(module, program, which) {
    Object.assign(this, {module, program, which});
  }

  corners() {
    const {module, program, which} = this;
    return new Uint8Array(module.HEAPU8.buffer, program.corners(which), Drawing.cornerBytes * program.corners_size(which));
  }

  // Some of its triangles as pixels, and where in the picture; null where nothing of them is seen.
  raster(first, count, [x, y, w, h]) {
    const at = this.program.raster(this.which, first, count, x, y, w, h), heap = this.module.HEAPU8.buffer;
    const [left, top, width, height, pixels, scale] = new Float64Array(heap, at, 6);
    if (!width) return null;
    const image = new ImageData(new Uint8ClampedArray(heap, pixels, 4 * width * height), width, height);
    return {image, box: [left, top, width, height].map(v => v / scale)};
  }

  // Each step goes to the painter's `triangles`, `text` or `clip`.
  paintBy(painter) {
    const {module, program, which} = this;
    // A copy: the memory may move while it grows.
    const words = new Uint32Array(module.HEAPU8.buffer, program.drawing(which), program.drawing_size(which)).slice();
    const numbers = new Float32Array(words.buffer);
    let corner = 0;
    for (let i = 0; i < words.length;) {
      const operation = words[i++];
      if (operation === 1) {
        painter.triangles(corner, words[i], this);
        corner += words[i++];
      } else if (operation === 2) {
        painter.text({
          colour: words[i], face: words[i + 1], size: numbers[i + 2], x: numbers[i + 3], y: numbers[i + 4], align: words[i + 5],
          turned: numbers[i + 6], outline: numbers[i + 7], outlineColour: words[i + 8],
          words: utf8.decode(new Uint8Array(module.HEAPU8.buffer, words[i + 9], words[i + 10])),
        });
        i += 11;
      } else if (operation === 3) {
        painter.clip([...numbers.subarray(i, i + 4)]);
        i += 4;
      } else {
        throw new Error("a drawing that is not understood");
      }
    }
  }
}

// On a canvas of its own: one that a painter has had serves no other. A context that is lost does not come back to
// its canvas; `lost` chooses anew.
function choosePainter(stage, lost) {
  const fresh = () => {
    const canvas = document.createElement("canvas");
    stage.replaceChildren(canvas);
    return canvas;
  };
  try {
    const canvas = fresh(), painter = new GlPainter(canvas);
    canvas.addEventListener("webglcontextlost", lost);
    return painter;
  } catch {
    return new CanvasPainter(fresh());
  }
}
