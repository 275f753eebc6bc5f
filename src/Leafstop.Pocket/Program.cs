// Nothing to do at the start: the page calls PocketApi.
return;
