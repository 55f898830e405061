// Moments as they stand in the record: "12 Nov, 18:04", with the year where it is another one.
export function moment(at: number, now = Date.now()): string {
  const [then, today] = [new Date(at), new Date(now)];
  const day = then.toLocaleDateString('en-GB', { day: 'numeric', month: 'short' });
  const time = then.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
  const year = then.getFullYear() === today.getFullYear() ? '' : ` ${then.getFullYear()}`;
  return `${day}${year}, ${time}`;
}
