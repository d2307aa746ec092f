package org.lightledger.architecture.seeded.app;

/** Stands for the wiring that nobody may import. */
public final class Wiring {}
