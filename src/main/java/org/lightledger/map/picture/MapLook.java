package org.lightledger.map.picture;

import java.awt.Color;

/**
 * The colours of the map. Grey with hints of colour only: on the pages blue means where the camera
 * looks and amber where the sun stands, so the map has neither. Own choice, after the pages'
 * tokens.
 */
public enum MapLook {
  /** Dark on light. */
  LIGHT(
      0xf1f2f2, 0xc9d4d9, 0xdde6dc, 0xe6ebe2, 0xe9ece3, 0xebe7dc, 0xe4e7e9, 0xfafafa, 0xcfdccf,
      0xbfcfc0, 0xd5d9db, 0xb4bbbf, 0xffffff, 0xbfc6ca, 0x9ca5ab, 0xa3abb0, 0x8f989e, 0x4b555b,
      0x14181b, 0x4d6a79),
  /** Light on dark. */
  DARK(
      0x20272b, 0x12191d, 0x222e29, 0x242d29, 0x252c29, 0x2b2b28, 0x272f34, 0x2c353b, 0x20312a,
      0x2a4036, 0x2f393f, 0x414d54, 0x45515a, 0x161b1e, 0x12171a, 0x5c6971, 0x66747c, 0xb4bfc5,
      0xf0f3f4, 0x86a1b0);

  final Color land;
  final Color water;
  final Color park;
  final Color grass;
  final Color meadow;
  final Color beach;
  final Color parking;
  final Color square;
  final Color wood;
  final Color tree;
  final Color building;
  final Color buildingEdge;
  final Color road;
  final Color roadEdge;
  final Color mainRoadEdge;
  final Color path;
  final Color rail;
  final Color text;
  final Color placeText;
  final Color waterText;

  MapLook(int... colours) {
    land = new Color(colours[0]);
    water = new Color(colours[1]);
    park = new Color(colours[2]);
    grass = new Color(colours[3]);
    meadow = new Color(colours[4]);
    beach = new Color(colours[5]);
    parking = new Color(colours[6]);
    square = new Color(colours[7]);
    wood = new Color(colours[8]);
    tree = new Color(colours[9]);
    building = new Color(colours[10]);
    buildingEdge = new Color(colours[11]);
    road = new Color(colours[12]);
    roadEdge = new Color(colours[13]);
    mainRoadEdge = new Color(colours[14]);
    path = new Color(colours[15]);
    rail = new Color(colours[16]);
    text = new Color(colours[17]);
    placeText = new Color(colours[18]);
    waterText = new Color(colours[19]);
  }
}
