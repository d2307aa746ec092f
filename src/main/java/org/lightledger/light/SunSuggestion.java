package org.lightledger.light;

/**
 * What a shot's exposure suggests, with its numbers. The owner's word decides.
 *
 * @param verdict what is suggested
 * @param reason why, a sentence with the numbers
 * @param overSunStops the measured exposure value less that expected in direct sun, stops
 * @param overShadeStops the measured exposure value less that expected in open shade, stops
 */
public record SunSuggestion(
    SunVerdict verdict, String reason, double overSunStops, double overShadeStops) {}
