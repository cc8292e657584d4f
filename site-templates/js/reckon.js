// From flowers to fruit, as the table under it reckons.
const form = document.getElementById('reckon'), box = document.getElementById('flowers'), out = document.getElementById('reckoned');

function grouped(value) { return String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, form.dataset.group); }

function reckon() {
  const text = box.value.replace(/[\s,.']/g, '');
  const good = /^\d{1,7}$/.test(text), flowers = Number(text);
  box.setAttribute('aria-invalid', good ? 'false' : 'true');
  const fruit = (share) => grouped(flowers * Number(form.dataset[share]));
  out.textContent = good ? form.dataset.says.replace('%1', fruit('best')).replace('%2', fruit('low')).replace('%3', fruit('high')) : form.dataset.bad;
}

form.addEventListener('submit', (event) => { event.preventDefault(); reckon(); });
box.addEventListener('input', reckon);
form.hidden = false;
reckon();
document.documentElement.dataset.ready = 'yes';
