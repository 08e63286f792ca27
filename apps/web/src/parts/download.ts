/** Gives the user a file made in the page. */
export function download(name: string, content: string, type: string): void {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser reads the blob after the click returns.
  setTimeout(() => {
    URL.revokeObjectURL(url);
  }, 10_000);
}
