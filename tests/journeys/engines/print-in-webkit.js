/**
 * Prints a page to a file with WebKit's own printing, for its driver prints nothing: gjs -m print-in-webkit.js URL FILE. The page is opened anew, nothing in it
 * is scrolled to, and it is printed on A4 as soon as it is alive and has what draws its charts. A program of its own, for gjs: WebKit's interface is reached over GObject alone.
 */
import System from 'system';
import GLib from 'gi://GLib';
import Gtk from 'gi://Gtk?version=3.0';
import WebKit from 'gi://WebKit2?version=4.1';

Gtk.init(null);
const [url, file] = System.programArgs;
const view = new WebKit.WebView({ web_context: WebKit.WebContext.new_ephemeral() });
const window = new Gtk.Window({ default_width: 1440, default_height: 900 });
window.add(view);
window.show_all();

const later = (wait, work) => GLib.timeout_add(GLib.PRIORITY_DEFAULT, wait, () => {
  work();
  return GLib.SOURCE_REMOVE;
});

/** Alive, and no chart would say that what draws it is still to be unpacked. */
const READY = `document.querySelector('.sheet.at-work') !== null && (() => {
  window.dispatchEvent(new Event('beforeprint'));
  const waits = document.querySelector('.sheet').textContent.includes('This chart is not drawn yet');
  window.dispatchEvent(new Event('afterprint'));
  return !waits;
})()`;

function printWhenAlive() {
  view.evaluate_javascript(READY, -1, null, null, null, (_view, answer) => {
    if (view.evaluate_javascript_finish(answer).to_boolean()) printNow();
    else later(200, printWhenAlive);
  });
}

function printNow() {
  const settings = new Gtk.PrintSettings();
  settings.set_printer('Print to File');
  settings.set(Gtk.PRINT_SETTINGS_OUTPUT_URI, GLib.filename_to_uri(file, null));
  settings.set(Gtk.PRINT_SETTINGS_OUTPUT_FILE_FORMAT, 'pdf');
  const paper = new Gtk.PageSetup();
  paper.set_paper_size(Gtk.PaperSize.new(Gtk.PAPER_NAME_A4));
  for (const side of ['top', 'bottom', 'left', 'right']) paper[`set_${side}_margin`](15, Gtk.Unit.MM);
  const printing = WebKit.PrintOperation.new(view);
  printing.set_print_settings(settings);
  printing.set_page_setup(paper);
  printing.connect('finished', () => Gtk.main_quit());
  printing.connect('failed', (_printing, error) => {
    printerr(error.message);
    System.exit(1);
  });
  printing.print();
}

view.connect('load-changed', (_view, event) => {
  if (event === WebKit.LoadEvent.FINISHED) printWhenAlive();
});
view.load_uri(url);
Gtk.main();
