using Leafstop.Benchmarks;

return args switch
{
    ["light"] => LightSpeed.Run(),
    ["campaign", .. var rest] => Campaign.Run(rest),
    ["faults", .. var rest] => FaultCampaign.Run(rest),
    ["profile", .. var rest] => Profile.Run(rest),
    ["numpy"] => NumpyComparison.Run(),
    ["speed", .. var rest] => Speed.Run(rest),
    ["ladder", .. var rest] => Ladder.Run(rest),
    ["judging", .. var rest] => JudgingCampaign.Run(rest),
    ["plan", .. var rest] => PlanSpeed.Run(rest),
    ["optics", .. var rest] => SharpestSearch.Run(rest),
    ["pocket", .. var rest] => PocketStart.Run(rest),
    ["crops", .. var rest] => CropSpeed.Run(rest),
    ["workbench", .. var rest] => WorkbenchSpeed.Run(rest),
    ["unpack", .. var files] => Ladder.Unpack(files),
    _ => Usage(),
};

static int Usage()
{
    Console.Error.WriteLine("light: the sun's day and the light of a day");
    Console.Error.WriteLine("campaign [SEEDS] [2x2|6x6] [caps|nocaps] [45mp]: accuracy, coverage and flags over seeded ladders of known truth");
    Console.Error.WriteLine("numpy: the statistics of a pair against a numpy script; speed [TIMES]: against a read pass and numpy, 24 MP");
    Console.Error.WriteLine("ladder [TIMES]: whole ladders against the raw library alone; plan [TIMES]: one plan, and a sweep of 10 000; profile [TIMES] [6x6]: where the time of a pair goes");
    Console.Error.WriteLine("judging [RUNS]: simulated observers judge; bias, coverage and number of answers");
    Console.Error.WriteLine("optics [TIMES]: the search for the sharpest aperture by exact contrast");
    Console.Error.WriteLine("crops [TIMES]: developed crops of a judging round against the raw library alone, and the next pair from the cache");
    Console.Error.WriteLine("pocket FILE.html [TIMES]: from opening a pocket page until it answers, in Chromium, also four times slower");
    Console.Error.WriteLine("workbench [TIMES]: the pages of the workbench in Chromium: opening, keys, pictures, size");
    return 2;
}
