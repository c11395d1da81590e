// Paints on a canvas, where a browser has no WebGL or only in software, which takes longer: the program makes the
// triangles into pixels.

const aligns = ["left", "center", "right"];

function cssColour(word) {
  return `rgba(${word >>> 24},${(word >>> 16) & 255},${(word >>> 8) & 255},${(word & 255) / 255})`;
}

class CanvasPainter {
  constructor(canvas) {
    this.canvas = canvas;
    this.seen = canvas.getContext("2d", {alpha: false});
    this.ground = document.createElement("canvas").getContext("2d");
    this.stamp = document.createElement("canvas");
  }

  // Returns how many pixels to one of the picture triangles are to be made for: still, and while something is dragged.
  resize(width, height, scale) {
    for (const context of [this.seen, this.ground]) {
      context.canvas.width = Math.round(width * scale);
      context.canvas.height = Math.round(height * scale);
      context.textRendering = "geometricPrecision";  // a new size forgets it
    }
    Object.assign(this, {width, height, scale});
    return [scale, Math.min(scale, 1)];
  }

  // `isNew`: the ground is not the one of the picture before; `box` says what of it is seen.
  paint(picture, ground, isNew, box, paper) {
    const [x, y, w, h] = box.map(v => Math.round(v * this.scale)), {width, height} = this.canvas;
    if (isNew) {
      this.ground.clearRect(0, 0, width, height);
      this.draw(ground, this.ground);
    }
    this.seen.fillStyle = cssColour(paper * 256 + 255);
    this.seen.fillRect(0, 0, width, height);
    if (w > 0 && h > 0) this.seen.drawImage(this.ground.canvas, x, y, w, h, x, y, w, h);
    this.draw(picture, this.seen);
  }

  draw(drawing, context) {
    this.context = context;
    context.save();
    context.scale(this.scale, this.scale);
    context.lineJoin = "round";
    context.save();
    this.box = [0, 0, this.width, this.height];
    drawing.paintBy(this);
    context.restore();
    context.restore();
  }

  clip(box) {
    this.context.restore();
    this.context.save();
    this.context.beginPath();
    this.context.rect(...box);
    this.context.clip();
    this.box = box;
  }

  triangles(first, count, drawing) {
    const raster = drawing.raster(first, count, this.box);
    if (!raster) return;
    const {image, box} = raster;
    this.stamp.width = image.width;  // empty anew: pixels put over what was just drawn from would be copied first, all of them
    this.stamp.height = image.height;
    this.stamp.getContext("2d").putImageData(image, 0, 0);
    this.context.drawImage(this.stamp, ...box);
  }

  text(text) {
    const {context} = this;
    setFont(context, text.face, text.size);
    context.textAlign = aligns[text.align];
    context.save();
    context.translate(text.x, text.y);
    context.rotate(text.turned);
    if (text.outline > 0) {
      context.strokeStyle = cssColour(text.outlineColour);
      context.lineWidth = 2 * text.outline;
      context.strokeText(text.words, 0, 0);
    }
    context.fillStyle = cssColour(text.colour);
    context.fillText(text.words, 0, 0);
    context.restore();
  }
}
