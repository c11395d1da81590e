// Draws what the program has drawn up (drawing.cpp has the other half) on a canvas.

const faces = ["400 @px Book", "italic 400 @px Book", "700 @px Book", "400 @px Sans", "700 @px Sans"];
const aligns = ["left", "center", "right"];
const utf8 = new TextDecoder();

function setFont(context, face, size) {
  context.font = faces[face].replace("@", size);
}

function colour(word) {
  return `rgba(${word >>> 24},${(word >>> 16) & 255},${(word >>> 8) & 255},${(word & 255) / 255})`;
}

// `heap` is the program's memory; `first` the index of the drawing's first word in it, as 32 bits.
function paintDrawing(context, heap, first, count, scale) {
  const words = new Uint32Array(heap, first, count), numbers = new Float32Array(heap, first, count);
  let i = 0;
  const trace = () => {
    const points = words[i++];
    context.beginPath();
    for (let k = 0; k < points; ++k, i += 2) context.lineTo(numbers[i], numbers[i + 1]);
  };
  context.save();
  context.setTransform(scale, 0, 0, scale, 0, 0);
  context.save();
  context.lineCap = context.lineJoin = "round";
  while (i < count) {
    const operation = words[i++];
    if (operation === 1) {  // line
      context.strokeStyle = colour(words[i]);
      context.lineWidth = numbers[i + 1];
      const closed = words[i + 2];
      i += 3;
      trace();
      if (closed) context.closePath();
      context.stroke();
    } else if (operation === 2) {  // polygon
      context.fillStyle = colour(words[i++]);
      trace();
      context.fill();
    } else if (operation === 3) {  // disc
      context.fillStyle = colour(words[i]);
      context.beginPath();
      context.arc(numbers[i + 1], numbers[i + 2], Math.max(0, numbers[i + 3]), 0, 2 * Math.PI);
      context.fill();
      i += 4;
    } else if (operation === 4) {
      paintText(context, heap, words, numbers, i);
      i += 11;
    } else if (operation === 5) {  // clip
      context.restore();
      context.save();
      context.lineCap = context.lineJoin = "round";
      context.beginPath();
      context.rect(numbers[i], numbers[i + 1], numbers[i + 2], numbers[i + 3]);
      context.clip();
      i += 4;
    } else if (operation === 6) {
      paintImage(context, heap, words, i, scale / numbers[i + 5]);
      i += 6;
    } else {
      throw new Error("a drawing that is not understood");
    }
  }
  context.restore();
  context.restore();
}

function paintText(context, heap, words, numbers, i) {
  const text = utf8.decode(new Uint8Array(heap, words[i + 9], words[i + 10]));
  const turned = numbers[i + 6], outline = numbers[i + 7];
  let x = numbers[i + 3], y = numbers[i + 4];
  setFont(context, words[i + 1], numbers[i + 2]);
  context.textAlign = aligns[words[i + 5]];
  if (turned) {
    context.save();
    context.translate(x, y);
    context.rotate(turned);
    x = y = 0;
  }
  if (outline > 0) {
    context.strokeStyle = colour(words[i + 8]);
    context.lineWidth = 2 * outline;
    context.strokeText(text, x, y);
  }
  context.fillStyle = colour(words[i]);
  context.fillText(text, x, y);
  if (turned) context.restore();
}

const stamp = document.createElement("canvas");

// `times`: pixels of the device to one of the image.
function paintImage(context, heap, words, i, times) {
  const [x, y, w, h, at] = [words[i] | 0, words[i + 1] | 0, words[i + 2], words[i + 3], words[i + 4]];
  stamp.width = w;  // empty anew: pixels put over what was just drawn from would be copied first, all of them
  stamp.height = h;
  stamp.getContext("2d").putImageData(new ImageData(new Uint8ClampedArray(heap, at, 4 * w * h), w, h), 0, 0);
  const scaled = context.getTransform();
  context.setTransform(times, 0, 0, times, 0, 0);
  context.drawImage(stamp, 0, 0, w, h, x, y, w, h);
  context.setTransform(scaled);
}
