// Measured values in words, and what stands in the middle of them.

/// A value with the digits that its quantity is read with.
export function shownValue(quantity, value) {
  if (quantity === 'RI') return value.toFixed(1);
  return quantity === 'Rf' ? value.toFixed(3).replace(/0$/, '') : String(Number(value.toPrecision(4)));
}

/// Of values in rising order.
export function median(rising) {
  return (rising[(rising.length - 1) >> 1] + rising[rising.length >> 1]) / 2;
}
