// node validate.js FILE...: the Khronos validator's report on each glTF file, as one JSON list.
const fs = require("fs");
const validator = require("gltf-validator");

Promise.all(process.argv.slice(2).map((file) => validator.validateBytes(new Uint8Array(fs.readFileSync(file)))))
  .then((reports) => console.log(JSON.stringify(reports)));
