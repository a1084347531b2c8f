package clinic.stimshelf.calc.demand;

import java.time.LocalDate;

/**
 * The shelf at the end of a day, if nothing further is ordered. Packs that were asked for and not
 * there are carried on as negative packs.
 *
 * @param date the day
 * @param expected mean packs left
 * @param low packs left when more is asked for than usual: the lower end of the band
 * @param high packs left when less is asked for than usual: the upper end of the band
 * @param stockoutChance that packs are owed at this day's end: more was asked for until then than
 *     the shelf and what arrived held
 */
public record ProjectedDay(
    LocalDate date, double expected, long low, long high, double stockoutChance) {}
