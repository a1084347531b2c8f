package clinic.stimshelf.web;

/** A choice in a form: what is sent and what a person reads. */
public record Option(String value, String words) {}
