// A teacher's page around a floor: what can be done with <keelrow-floor>.
'use strict';

const floor = document.querySelector('#floor');
const said = document.querySelector('#said');
const buttons = [...document.querySelectorAll('[data-step]')];

function tell(error) { said.textContent = error.message; }

for (const button of buttons) {
  button.addEventListener('click', () => floor.step(Number(button.dataset.step)).catch(tell));
}

// The class may turn the steps in the frame too.
floor.addEventListener('keelrow-step', ({ detail }) => {
  for (const button of buttons) button.setAttribute('aria-pressed', !detail.ask && Number(button.dataset.step) === detail.step);
  said.textContent = detail.ask ? 'Question ' + detail.ask : 'Step ' + detail.step + ' of ' + detail.of + ': ' + detail.title;
});

document.querySelector('#compare').addEventListener('click', async () => {
  try {
    const { lines } = await floor.figures();
    for (const cell of document.querySelectorAll('[data-figure]')) cell.textContent = lines[cell.dataset.figure].toFixed(2) + ' mm';
  } catch (error) {
    tell(error);
  }
});

document.querySelector('#ask').addEventListener('submit', (event) => {
  event.preventDefault();
  floor.ask(Number(document.querySelector('#number').value)).catch(tell);
});

let right = 0, all = 0;
floor.addEventListener('keelrow-answer', ({ detail }) => {
  all++;
  if (detail.right) right++;
  document.querySelector('#answers').textContent = right + ' of ' + all + ' answers were right.';
});
