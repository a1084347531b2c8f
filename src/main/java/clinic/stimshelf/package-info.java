/** Stimshelf: a clinic's shelf of muscle stimulators, who has which, and with which pads. */
package clinic.stimshelf;
