/** Start of the page. Placeholder until the wiring exists. */
document.documentElement.dataset['started'] = 'yes';
