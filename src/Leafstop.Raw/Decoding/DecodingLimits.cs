namespace Leafstop.Raw.Decoding;

/// <summary>What one file may cost before its worker is stopped and the file is given up.</summary>
public sealed record DecodingLimits
{
    /// <summary>Longest time from announcing a file to having read it. Default 30 s.</summary>
    public TimeSpan FileTime { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>Most memory that a worker may hold in RAM, in bytes. Default 2 GiB.</summary>
    public long ResidentBytes { get; init; } = 2L << 30;

    /// <summary>Longest silence outside the reading of a file, that is while starting or measuring: ten times <see cref="FileTime"/>, at least one minute.</summary>
    internal TimeSpan Silence => FileTime * 10 is var tenfold && tenfold > TimeSpan.FromMinutes(1) ? tenfold : TimeSpan.FromMinutes(1);
}
