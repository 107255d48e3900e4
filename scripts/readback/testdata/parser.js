// Prints what dxf-parser finds in a drawing: node parser.js FOLDER DRAWING,
// where dxf-parser is in FOLDER.
const fs = require('node:fs');
const DxfParser = require(process.argv[2]);

const dxf = new DxfParser().parseSync(fs.readFileSync(process.argv[3], 'utf8'));
const { layer, lineType } = dxf.tables;
const xy = (p) => [p.x, p.y];

console.log(JSON.stringify({
  version: dxf.header.$ACADVER,
  problems: [],
  layers: Object.fromEntries(Object.keys(layer.layers).map((name) => [name, ''])), // it passes over their line types
  dashes: Object.fromEntries(Object.values(lineType.lineTypes).map((t) => [t.name, t.pattern || []])),
  entities: dxf.entities.map((e) => ({
    type: e.type,
    layer: e.layer,
    closed: e.shape === true,
    points: (e.vertices || [e.startPoint]).map(xy),
    text: e.text || '',
    height: e.textHeight || 0,
    angle: e.rotation || 0,
  })),
}));
