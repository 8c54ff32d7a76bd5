// Has two libraries of the npm registry count 500 random texts, and writes tests/text/outside_counts.tsv, which the suite compares with:
//   npm install --no-save split-sms@0.1.7 sms-segments-calculator@1.3.0
//   NODE_PATH=node_modules node tests/soak/sms_counts.js > tests/text/outside_counts.tsv
// A line: the text (\\, \n and \f escaped), then alphabet, units and parts by each library.
const { split } = require('split-sms');
const { SegmentedMessage } = require('sms-segments-calculator');

let state = 20260707;
const below = (n) => {  // a fixed series: Lehmer's generator with Park and Miller's multiplier
  state = Number((BigInt(state) * 48271n) % 2147483647n);
  return state % n;
};
const basic = [...'@£$¥èéùìòÇ\nØøÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !"#¤%&\'()*+,-./0123456789:;<=>?¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà'];
const extension = [...'\f^{}\\[~]|€'];
const other = [...'çê’–°Жыл中村🌳🐕'];
const lengths = [0, 1, 40, 69, 70, 71, 133, 134, 135, 152, 153, 154, 159, 160, 161, 200, 201, 202, 305, 306, 307, 320, 459, 460];

console.log('# split-sms 0.1.7, sms-segments-calculator 1.3.0; written by tests/soak/sms_counts.js');
for (let number = 0; number < 500; ++number) {
  const length = lengths[below(lengths.length)] + below(3);
  const kind = below(4);  // alphabet alone, with extension, one foreign character, many
  const text = [];
  for (let i = 0; i < length; ++i) {
    if (kind >= 1 && below(12) === 0) text.push(extension[below(extension.length)]);
    else if (kind === 3 && below(4) === 0) text.push(other[below(other.length)]);
    else text.push(basic[below(basic.length)]);
  }
  if (kind === 2 && text.length > 0) text[below(text.length)] = other[below(other.length)];
  const joined = text.join('');
  const a = split(joined);
  const b = new SegmentedMessage(joined, 'auto', false);
  const units = (bits, per) => Math.round(bits / per);
  const gsm = b.getEncodingName() === 'GSM-7';
  console.log([joined.replace(/\\/g, '\\\\').replace(/\n/g, '\\n').replace(/\f/g, '\\f'),
    a.characterSet === 'GSM' ? 'gsm7' : 'ucs2', units(a.bytes, a.characterSet === 'GSM' ? 1 : 2), a.parts.length,
    gsm ? 'gsm7' : 'ucs2', units(b.messageSize, gsm ? 7 : 16), b.segmentsCount].join('\t'));
}
