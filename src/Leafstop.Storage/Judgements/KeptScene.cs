using System.Collections.Immutable;
using Leafstop.Core.Judging;

namespace Leafstop.Storage.Judgements;

/// <summary>What the pictures of a judging on the screen are made from, kept so that they can be made again.</summary>
/// <param name="Name">Stands for the judging in addresses; random, the same from begin to end.</param>
/// <param name="Folder">Full path of the folder of raw files. Of this machine only: a camera file does not carry it.</param>
/// <param name="SamplesMark">Stands for the samples of all pictures: other raw files give another mark.</param>
/// <param name="ScreenPixelsPerCentimetre">Of the screen.</param>
/// <param name="CropSidePixels">Sensor pixels along a crop, as asked for.</param>
/// <param name="Crops">Where the crops lie.</param>
public sealed record KeptScene(string Name, string Folder, string SamplesMark, double ScreenPixelsPerCentimetre, int CropSidePixels, ImmutableArray<KeptCrop> Crops);

/// <summary>Where a crop lies.</summary>
/// <param name="Region">What it shows.</param>
/// <param name="Left">First column, sensor pixels from the left of the active area.</param>
/// <param name="Top">First row, from its top.</param>
public sealed record KeptCrop(CropRegion Region, int Left, int Top);
