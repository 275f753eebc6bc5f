using Leafstop.Benchmarks;

return args switch
{
    ["campaign", .. var rest] => Campaign.Run(rest),
    ["faults", .. var rest] => FaultCampaign.Run(rest),
    ["profile", .. var rest] => Profile.Run(rest),
    _ => Usage(),
};

static int Usage()
{
    Console.Error.WriteLine("campaign [SEEDS] [clean|faults] [2x2|6x6] [caps|nocaps]: accuracy, coverage and flags over seeded ladders of known truth");
    return 2;
}
