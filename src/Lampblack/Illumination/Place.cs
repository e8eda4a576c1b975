using System;

namespace Lampblack.Illumination;

/// <summary>A place in the box, or a way in it, in mm: x and y as on the panel, z from the mask towards the floor.</summary>
internal readonly record struct Place(double X, double Y, double Z)
{
    public double Length => Math.Sqrt(Dot(this));

    public static Place operator +(Place first, Place second) => new(first.X + second.X, first.Y + second.Y, first.Z + second.Z);

    public static Place operator -(Place first, Place second) => new(first.X - second.X, first.Y - second.Y, first.Z - second.Z);

    public static Place operator *(double times, Place way) => new(times * way.X, times * way.Y, times * way.Z);

    public double Dot(Place other) => (X * other.X) + (Y * other.Y) + (Z * other.Z);

    public Place Cross(Place other) => new((Y * other.Z) - (Z * other.Y), (Z * other.X) - (X * other.Z), (X * other.Y) - (Y * other.X));
}
