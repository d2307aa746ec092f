package org.lightledger.architecture.seeded.session.drive.roads;

/** Stands for the roads. */
public final class Streets {}
